using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>A target for one quantity on one area.</summary>
/// <param name="Area">The area as records name it.</param>
/// <param name="Sheet">Identity text of the limit sheet it is for; absent: every unit on the area.</param>
/// <param name="Quantity">Usually height of cut.</param>
/// <param name="Target">The target.</param>
/// <param name="Tolerance">Allowed either way; absent: the limit sheet's own.</param>
public sealed record AreaTarget(
    string Area,
    string? Sheet,
    MeasuredQuantity Quantity,
    PrintedLength Target,
    PrintedLength? Tolerance
);
