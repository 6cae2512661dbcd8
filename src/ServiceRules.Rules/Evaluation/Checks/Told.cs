using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Outcomes in their plain forms.</summary>
internal static class Told
{
    public static CheckOutcome Met(string statement, ImmutableArray<string> evidence = default) =>
        Of(Verdict.Met, FindingReason.None, statement, evidence);

    public static CheckOutcome NotApplicable(string statement) =>
        Of(Verdict.NotApplicable, FindingReason.None, statement, default);

    public static CheckOutcome InProgress(string statement) =>
        Of(Verdict.Unproven, FindingReason.InProgress, statement, default);

    public static CheckOutcome Unproven(
        FindingReason reason,
        string statement,
        ImmutableArray<string> evidence = default,
        Remedy? remedy = null
    ) => Of(Verdict.Unproven, reason, statement, evidence) with { Remedy = remedy };

    public static CheckOutcome NotMet(
        FindingReason reason,
        string statement,
        ImmutableArray<string> evidence = default,
        Remedy? remedy = null
    ) => Of(Verdict.NotMet, reason, statement, evidence) with { Remedy = remedy };

    /// <summary>Evidence as findings carry it: ordinal order, each once.</summary>
    public static ImmutableArray<string> Sorted(IEnumerable<string> evidence) =>
        [.. evidence.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    private static CheckOutcome Of(
        Verdict verdict,
        FindingReason reason,
        string statement,
        ImmutableArray<string> evidence
    ) =>
        new()
        {
            Verdict = verdict,
            Reason = reason,
            Statement = statement,
            Evidence = evidence.IsDefault ? [] : Sorted(evidence),
        };
}
