using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that the timeline shows, each with what judges it.</summary>
internal static class TimelineDuties
{
    public static FrozenDictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>> Table { get; } =
        new Dictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>>().ToFrozenDictionary();
}
