using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Cli.Printing;

/// <summary>A finding that is told, and the others that one and the same thing leaves open.</summary>
/// <param name="Finding">What is told.</param>
/// <param name="Others">What is only named beside it.</param>
internal sealed partial record ToldOnce(Finding Finding, ImmutableArray<Finding> Others)
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
            foreach (var one in same is [] ? [new(finding, [])] : WithTheirWords(same))
            {
                yield return one;
            }
        }
    }

    /// <summary>What an entry says that denies it is quoted, whatever else is drawn together: each finding that quotes more is told.</summary>
    private static IEnumerable<ToldOnce> WithTheirWords(ImmutableArray<Finding> same)
    {
        var quoted = new HashSet<string>(Quotes(same[0]), StringComparer.Ordinal);
        List<Finding> besides = [];
        List<Finding> others = [];
        foreach (var finding in same[1..])
        {
            var mine = Quotes(finding).ToList();
            (mine.TrueForAll(quoted.Contains) ? others : besides).Add(finding);
            quoted.UnionWith(mine);
        }

        return besides.Select(finding => new ToldOnce(finding, [])).Prepend(new(same[0], [.. others]));
    }

    private static IEnumerable<string> Quotes(Finding finding) =>
        finding
            .Notices.Prepend(finding.Statement)
            .SelectMany(text => Said().Matches(text))
            .Select(match => match.Value);

    [GeneratedRegex("says `[^`]*`", RegexOptions.CultureInvariant)]
    private static partial Regex Said();

    private static bool IsToldByOne(Cause cause) =>
        cause.IsOfSeveral && (cause.IsOfCredibility || cause.Statements.Count() == 1);
}
