using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Cli.Printing;

/// <summary>What a job that goes on still lacks before hands go in, in the order in which it is done.</summary>
/// <param name="Findings">The findings that say so.</param>
/// <param name="Steps">One line a step.</param>
internal sealed record BeforeHands(ImmutableHashSet<Finding> Findings, ImmutableArray<string> Steps)
{
    /// <summary>Reads it off an assessment; empty on a job that is signed off.</summary>
    public static BeforeHands Of(Assessment assessment, Func<Finding, Requirement?> ruleOf)
    {
        if (assessment.State != RecordState.Open)
        {
            return new([], []);
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
            select (Finding: finding, Rule: rule)
        ).ToImmutableArray();
        // Who is protected sums the other steps up: told only where it is the only one.
        var single = lacking
            .Where(one => one.Rule.Check is not Check.Protection && !IsOrderOfNothing(one.Rule, one.Finding))
            .ToImmutableArray();
        return new(
            [.. lacking.Select(one => one.Finding)],
            [
                .. (single.IsEmpty ? lacking : single)
                    .SelectMany(one => Lines(one.Finding))
                    .Select(line => char.ToUpperInvariant(line[0]) + line[1..])
                    .Distinct(StringComparer.Ordinal),
            ]
        );
    }

    // With no two steps entered there is no order to speak of yet.
    private static bool IsOrderOfNothing(Requirement rule, Finding finding) =>
        rule.Check is Check.OrderOfEvents or Check.EnergyControl { Of: EnergyDuty.MakeSafeOrder }
        && finding.Evidence.Length < 2;

    private static ImmutableArray<string> Lines(Finding finding)
    {
        var missing = new[] { finding.Statement }
            .Concat(finding.Notices)
            .Select(StepsBeforeHands.Missing)
            .OfType<string>()
            .ToImmutableArray();
        return !missing.IsEmpty ? missing
            : finding.Remedy is Remedy.Act act ? [act.What]
            : [finding.Statement];
    }
}
