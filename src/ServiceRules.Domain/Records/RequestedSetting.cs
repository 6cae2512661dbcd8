using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;

namespace ServiceRules.Domain.Records;

/// <summary>A setting asked for on the job card.</summary>
/// <param name="Quantity">What is to be set.</param>
/// <param name="Value">To what.</param>
/// <param name="By">Who asked for it; absent: the card does not say.</param>
public sealed record RequestedSetting(MeasuredQuantity Quantity, PrintedLength Value, Id<Participant>? By)
{
    /// <summary>What the site calls the card; absent: the card of this job.</summary>
    public string? Card { get; init; }

    /// <summary>The setting order that it moves away from.</summary>
    public Id<SettingOrder>? Order { get; init; }
}
