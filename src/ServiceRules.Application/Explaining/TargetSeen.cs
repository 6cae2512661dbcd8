using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Explaining;

/// <summary>A target in force for a unit, and who set it.</summary>
/// <param name="Target">The target.</param>
/// <param name="Asked">The job card's own request, where that governs.</param>
/// <param name="Order">The setting order that it stands in, where none was asked for on the job card.</param>
/// <param name="File">The file of the order, relative to the folder of rules.</param>
public sealed record TargetSeen(
    AreaTarget Target,
    RequestedSetting? Asked,
    SettingOrder? Order,
    string? File
);
