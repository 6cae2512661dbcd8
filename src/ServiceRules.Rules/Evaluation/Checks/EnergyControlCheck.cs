using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A duty of controlling energy: each is judged by itself, on the same reading of the job.</summary>
internal static class EnergyControlCheck
{
    public static CheckOutcome Evaluate(Check.EnergyControl check, Rule rule, JobFrame frame)
    {
        var judge =
            TimelineDuties.Table.GetValueOrDefault(check.Of)
            ?? RegisterDuties.Table.GetValueOrDefault(check.Of);
        var duty = DutyFrame.Of(rule, frame);
        return Suppression.Of(check.Of, duty) ?? judge?.Invoke(duty) ?? NotJudged();
    }

    private static CheckOutcome NotJudged() =>
        TimelineOutcome.Of(
            Verdict.Unproven,
            FindingReason.StepMissing,
            "This duty is not judged yet.",
            [],
            "Have a person look at it."
        );
}
