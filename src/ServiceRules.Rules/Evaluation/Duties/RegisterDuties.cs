using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that registers and claims show, each with what judges it.</summary>
internal static class RegisterDuties
{
    public static FrozenDictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>> Table { get; } =
        new Dictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>>().ToFrozenDictionary();
}
