using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Cli.Printing;

/// <summary>What a job that goes on still lacks before hands go in, in the order in which it is done.</summary>
/// <param name="Findings">The findings that say so.</param>
/// <param name="Steps">One line a step; where hands are in now, that they come out is the first.</param>
/// <param name="AreIn">Hands are in now, and something is lacking.</param>
/// <param name="BeforeRun">What is lacking before the reel is run, hands in or not.</param>
internal sealed record BeforeHands(
    ImmutableHashSet<Finding> Findings,
    ImmutableArray<string> Steps,
    bool AreIn,
    ImmutableArray<string> BeforeRun
)
{
    /// <summary>Reads it off an assessment; empty on a job that is signed off.</summary>
    /// <param name="assessment">The job as it was judged.</param>
    /// <param name="ruleOf">The rule of a finding.</param>
    /// <param name="handsIn">Whoever the record shows at work and not out yet.</param>
    public static BeforeHands Of(
        Assessment assessment,
        Func<Finding, Requirement?> ruleOf,
        IReadOnlyCollection<string> handsIn
    )
    {
        if (assessment.State != RecordState.Open)
        {
            return new([], [], false, []);
        }

        var lacking = (
            from finding in assessment.Findings
            where
                finding
                    is { Verdict: Verdict.Unproven, Reason: FindingReason.InProgress, Subject: Subject.Job }
            let rule = ruleOf(finding)
            where rule is not null
            let step = StepsBeforeHands.Of(rule.Check)
            where step is not null
            orderby step.Value, finding.Rule
            select (Finding: finding, Rule: rule, Duty: DutyOf(rule), Step: step.Value)
        ).ToImmutableArray();
        // Hands may be in behind a lock long before the reel is run: what is asked of the run holds no work.
        var beforeRun = lacking.Where(one => one.Step == StepBeforeHands.MeasuresRecorded).ToImmutableArray();
        lacking = lacking.RemoveRange(beforeRun);
        // Who is protected sums the other steps up: told only where it is the only one.
        var single = lacking
            .Where(one => one.Rule.Check is not Check.Protection && !IsOrderOfNothing(one.Rule, one.Finding))
            // One act is told once, by the duty that asks the most of it.
            .Where(one =>
                !lacking.Any(other =>
                    one.Duty is { } duty
                    && other.Duty is { } does
                    && !other.Finding.StillToDo.IsEmpty
                    && DutyTable.Of(does).Does.Contains(duty)
                )
            )
            .ToImmutableArray();
        var steps = Told((single.IsEmpty ? lacking : single).Select(one => one.Finding));
        var areIn =
            handsIn.Count > 0
            && (
                !steps.IsEmpty
                || assessment.Findings.Any(finding =>
                    finding is { Verdict: Verdict.NotMet, Effect: Effect.Stop, Subject: Subject.Job }
                    && ruleOf(finding) is { Check: Check.Protection or Check.EnergyControl }
                )
            );
        return new(
            [.. lacking.Concat(beforeRun).Select(one => one.Finding)],
            areIn ? [$"Hands out now: {string.Join(", ", handsIn)}.", .. steps] : steps,
            areIn,
            Told(beforeRun.Select(one => one.Finding))
        );
    }

    private static ImmutableArray<string> Told(IEnumerable<Finding> findings)
    {
        var lines = findings
            .SelectMany(finding => Lines(finding))
            .Select(SentenceCase.Begin)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        return [.. lines.Where(line => !lines.Exists(other => AsksMore(other, line)))];
    }

    // The same act for this source and others.
    private static bool AsksMore(string other, string line) =>
        other.StartsWith(line + " and ", StringComparison.Ordinal)
        || other.StartsWith(line + ", ", StringComparison.Ordinal);

    // With no two steps entered there is no order to speak of yet.
    private static bool IsOrderOfNothing(Requirement rule, Finding finding) =>
        rule.Check is Check.OrderOfEvents or Check.EnergyControl { Of: EnergyDuty.MakeSafeOrder }
        && finding.Evidence.Length < 2;

    private static EnergyDuty? DutyOf(Requirement rule) => (rule.Check as Check.EnergyControl)?.Of;

    private static ImmutableArray<string> Lines(Finding finding) =>
        !finding.StillToDo.IsEmpty ? finding.StillToDo
        : finding.Remedy is Remedy.Act act ? [act.What]
        : [finding.Statement];
}
