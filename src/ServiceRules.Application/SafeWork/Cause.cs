using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>What leaves duties open by one and the same thing: told once, with every duty that it touches.</summary>
/// <param name="Findings">Its findings, the gravest first.</param>
public sealed record Cause(ImmutableArray<SafeWorkFinding> Findings)
{
    /// <summary>The entries are there, and are not credible enough to prove what they say.</summary>
    public const string NotCredible = "entries not credible enough to prove what they say";

    /// <summary>The gravest.</summary>
    public Finding First => Findings[0].Finding;

    /// <summary>More than one duty is touched.</summary>
    public bool IsOfSeveral => Findings.Length > 1;

    /// <summary>Entries are there, and prove nothing.</summary>
    public bool IsOfCredibility => IsCredibility(First);

    /// <summary>Hands went in without protection: told by who was protected from what, which sums the duties up.</summary>
    public bool IsOfHands =>
        IsSum(Findings[0])
        && !IsOfCredibility
        && Findings.Any(one => one.Finding.Statement != First.Statement);

    /// <summary>What there is to say, once each; where one finding sums the others up, that one.</summary>
    public IEnumerable<string> Statements =>
        IsOfHands
            ? [First.Statement]
            : Findings.Select(one => one.Finding.Statement).Distinct(StringComparer.Ordinal);

    /// <summary>The entries of all of them.</summary>
    public IEnumerable<string> Evidence =>
        Findings.SelectMany(one => one.Finding.Evidence).Distinct(StringComparer.Ordinal);

    /// <summary>What is left open, by what leaves it open, in the order in which each first comes.</summary>
    public static ImmutableArray<Cause> Of(IEnumerable<SafeWorkFinding> open)
    {
        ArgumentNullException.ThrowIfNull(open);
        var all = open.ToList();
        var sum = all.Find(one => IsSum(one) && one.Finding.LetOut is null && !IsCredibility(one.Finding));
        var shared = all.CountBy(one => one.Finding.Statement)
            .Where(same => same.Value > 1)
            .Select(same => same.Key)
            .ToHashSet(StringComparer.Ordinal);
        return
        [
            .. all.GroupBy(one => KeyOf(IsSummedUp(one, sum) ? sum! : one, shared))
                .Select(same => new Cause([.. same.OrderBy(one => one == sum ? 0 : 1)])),
        ];
    }

    /// <summary>A finding that has its entries, and cannot rest on them.</summary>
    public static bool IsCredibility(Finding finding) =>
        finding is { Verdict: Verdict.Unproven, Reason: FindingReason.NotCredible };

    private static bool IsSum(SafeWorkFinding one) => one.Rule.Check is Check.Protection;

    // The same hands at the same entries, and the same thing to do: somebody holds nothing, or is at a live machine.
    private static bool IsSummedUp(SafeWorkFinding one, SafeWorkFinding? sum) =>
        sum is not null
        && one.Finding is { LetOut: null, Evidence: [_, ..] evidence }
        && one.Finding.Verdict == sum.Finding.Verdict
        && !IsCredibility(one.Finding)
        && one.Rule.Check is Check.EnergyControl { Of: var of }
        && DutyTable.Of(of)
            is { Danger: HandsDanger.MachineLive or HandsDanger.NothingHeld }
                or { Step: StepBeforeHands.Held }
        && evidence.All(sum.Finding.Evidence.Contains);

    // What somebody let out is told by itself, with who let it out; so is what has more to tell than its statement.
    private static (Verdict, string) KeyOf(SafeWorkFinding one, HashSet<string> shared)
    {
        var finding = one.Finding;
        return (
            finding.Verdict,
            finding.LetOut is not null || !finding.Notices.IsEmpty ? finding.Rule
            : IsCredibility(finding) ? NotCredible
            : shared.Contains(finding.Statement) ? finding.Statement
            : ActOf(one) ?? finding.Statement
        );
    }

    // Two things that one act puts right; a step before hands is asked by itself, whatever is said of it.
    private static string? ActOf(SafeWorkFinding one) =>
        one.Finding.Remedy is Remedy.Act act && !IsSum(one) && StepsBeforeHands.Of(one.Rule.Check) is null
            ? act.What
            : null;
}
