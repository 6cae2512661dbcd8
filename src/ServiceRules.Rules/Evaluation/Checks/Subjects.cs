using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A check on a unit that a rule asks of the set or the job: every unit must keep it.</summary>
internal static class Subjects
{
    /// <summary>The weakest of the outcomes on each unit, its statement naming the unit.</summary>
    public static CheckOutcome EachUnit(Rule rule, JobFrame frame)
    {
        var outcomes = frame
            .Units.Select(unit => (Unit: unit, Outcome: CheckEvaluation.Evaluate(rule, frame, unit)))
            .ToList();
        var (weakest, outcome) = outcomes.MinBy(each => Rank(each.Outcome.Verdict));
        return outcome with
        {
            Statement = $"{weakest.Work.Id}: {outcome.Statement}",
            Evidence = Told.Sorted(outcomes.SelectMany(each => each.Outcome.Evidence)),
            Comparisons = [.. outcomes.SelectMany(each => each.Outcome.Comparisons)],
            Notices = [.. outcomes.SelectMany(each => each.Outcome.Notices)],
        };
    }

    private static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            Verdict.Met => 2,
            _ => 3,
        };
}
