using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Cli.Printing;

/// <summary>A finding that is told, and the others that one and the same thing leaves open.</summary>
/// <param name="Finding">What is told.</param>
/// <param name="Others">What is only named beside it.</param>
internal sealed record ToldOnce(Finding Finding, ImmutableArray<Finding> Others)
{
    /// <summary>Findings in the order given, what is of one cause drawn together where its first one stands.</summary>
    public static IEnumerable<ToldOnce> Of(
        IReadOnlyCollection<Finding> findings,
        Func<Finding, Requirement?> ruleOf
    )
    {
        var duties =
            from finding in findings
            let rule = ruleOf(finding)
            where rule is not null && SafeWorkFindings.KindOf(rule) == SafeWorkKind.Duty
            let duty = new SafeWorkFinding(rule, finding, SafeWorkKind.Duty)
            where duty.IsOpen && !duty.IsToCome
            select duty;
        var causes = Cause.Of(duties).Where(IsToldByOne).ToList();
        var told = new HashSet<Finding>(ReferenceEqualityComparer.Instance);
        foreach (var finding in findings.Where(told.Add))
        {
            ImmutableArray<Finding> same =
            [
                .. causes
                    .Where(cause => cause.Findings.Any(one => ReferenceEquals(one.Finding, finding)))
                    .SelectMany(cause => cause.Findings)
                    .Select(one => one.Finding),
            ];
            told.UnionWith(same);
            yield return same is [var first, .. var others] ? new(first, [.. others]) : new(finding, []);
        }
    }

    private static bool IsToldByOne(Cause cause) =>
        cause.IsOfSeveral && (cause.IsOfCredibility || cause.Statements.Count() == 1);
}
