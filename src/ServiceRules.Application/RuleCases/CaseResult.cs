using ServiceRules.Application.Library;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.RuleCases;

/// <summary>What running one case came to.</summary>
/// <param name="Case">The case.</param>
/// <param name="Outcome">Whether it came out as it says.</param>
/// <param name="Found">The verdict that the rule gave; null when the case could not be built.</param>
/// <param name="Told">The rule's statement, or why the case could not be built.</param>
public sealed record CaseResult(PlacedCase Case, CaseOutcome Outcome, Verdict? Found, string Told)
{
    /// <summary>What the verdict does to its subject; null when the case could not be built.</summary>
    public Effect? FoundEffect { get; init; }

    /// <summary>The record and context that it was judged on; null when they could not be built.</summary>
    internal BuiltCase? Built { get; init; }

    /// <summary>The finding; null when the rule does not apply or the case could not be built.</summary>
    internal Finding? Finding { get; init; }
}
