using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What leaves duties open by one and the same thing: told once, with every duty that it touches.</summary>
/// <param name="Findings">Its findings, the gravest first.</param>
internal sealed record Cause(ImmutableArray<SafeWorkFinding> Findings)
{
    /// <summary>The entries are there, and are not credible enough to prove what they say.</summary>
    public const string NotCredible = "entries not credible enough to prove what they say";

    public Finding First => Findings[0].Finding;

    public bool IsOfSeveral => Findings.Length > 1;

    public bool IsOfCredibility => IsCredibility(First);

    public IEnumerable<string> Evidence =>
        Findings.SelectMany(one => one.Finding.Evidence).Distinct(StringComparer.Ordinal);

    /// <summary>What is left open, by what leaves it open, in the order in which each first comes.</summary>
    public static ImmutableArray<Cause> Of(IEnumerable<SafeWorkFinding> open) =>
        [.. open.GroupBy(KeyOf).Select(same => new Cause([.. same]))];

    public static bool IsCredibility(Finding finding) =>
        finding is { Verdict: Verdict.Unproven, Reason: FindingReason.NotCredible };

    // What somebody let out is told by itself, with who let it out; so is what has more to tell than its statement.
    private static (Verdict, string) KeyOf(SafeWorkFinding one)
    {
        var finding = one.Finding;
        return (
            finding.Verdict,
            finding.LetOut is not null || !finding.Notices.IsEmpty ? finding.Rule
            : IsCredibility(finding) ? NotCredible
            : finding.Statement
        );
    }
}
