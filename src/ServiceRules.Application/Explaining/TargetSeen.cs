using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Explaining;

/// <summary>A target in force for a unit, and who set it.</summary>
/// <param name="Target">The target.</param>
/// <param name="Asked">The job card, where that governs.</param>
/// <param name="Order">The setting order that it stands in, or that the job card moves away from; null: none.</param>
/// <param name="File">The file of the order, relative to the folder of rules.</param>
public sealed record TargetSeen(AreaTarget Target, CardAsked? Asked, SettingOrder? Order, string? File);
