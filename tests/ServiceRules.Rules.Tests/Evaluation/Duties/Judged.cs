using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>How tests ask one duty of one timeline.</summary>
internal static class Judged
{
    public static CheckOutcome Duty(this SafetyCase safety, EnergyDuty of) =>
        safety.Judge(new Check.EnergyControl(of));

    public static Verdict VerdictOf(this SafetyCase safety, EnergyDuty of) => safety.Duty(of).Verdict;
}
