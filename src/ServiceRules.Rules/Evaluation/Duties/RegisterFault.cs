using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>One thing that a register does not show, or shows to be wrong.</summary>
/// <param name="Verdict">Not met, or unproven.</param>
/// <param name="Reason">Why, in one closed word.</param>
/// <param name="Text">A whole sentence.</param>
/// <param name="Act">What to do about it.</param>
/// <param name="Evidence">The entries of the record that it touches, as pointers.</param>
internal sealed record RegisterFault(
    Verdict Verdict,
    FindingReason Reason,
    string Text,
    string Act,
    ImmutableArray<string> Evidence
)
{
    /// <summary>The register shows it to be wrong.</summary>
    public static RegisterFault Wrong(
        FindingReason reason,
        string text,
        string act,
        params ReadOnlySpan<string> evidence
    ) => new(Verdict.NotMet, reason, text, act, [.. evidence]);

    /// <summary>The register says nothing of it.</summary>
    public static RegisterFault Unsaid(string text, string act, params ReadOnlySpan<string> evidence) =>
        new(Verdict.Unproven, FindingReason.NotRegistered, text, act, [.. evidence]);
}
