using System.Globalization;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Verdicts;

/// <summary>
/// Chances as people read them, the same everywhere: to a tenth of a percent, and never "100 %" or "0 %", since nothing that
/// was measured is certain.
/// </summary>
public static class ChanceWords
{
    private const decimal Least = 0.001m;

    /// <summary><c>2.1 %</c>, <c>&lt; 0.1 %</c>, <c>&gt; 99.9 %</c>.</summary>
    public static string Of(Probability chance) =>
        chance.Value < Least ? "< 0.1 %"
        : chance.Value > 1 - Least ? "> 99.9 %"
        : string.Create(CultureInfo.InvariantCulture, $"{chance.Value * 100:0.0} %");

    /// <summary>The chance that a place is within its limits; none where feelers settle it, or nothing is claimed.</summary>
    public static string? In(Comparison comparison) => ChanceOf(comparison) is { } chance ? Of(chance) : null;

    /// <summary>
    /// The risk of a verdict (specific consumer's and producer's risk, JCGM 106:2012, 9.3): of what is met that it is
    /// in fact out, of what is not met that it is in fact in.
    /// </summary>
    public static string? Risk(Comparison comparison) =>
        ChanceOf(comparison) is not { } chance
            ? null
            : comparison.Verdict switch
            {
                Verdict.Met => $"chance that it is in fact out: {Of(chance.Complement)}",
                Verdict.NotMet => $"chance that it is in fact in: {Of(chance)}",
                _ => $"chance that it is in: {Of(chance)}",
            };

    /// <summary>What an interval settles is certain and no chance.</summary>
    private static Probability? ChanceOf(Comparison comparison) =>
        comparison.Probability is not { } chance || (comparison.Value is null && chance is 0 or 1)
            ? null
            : Probability.Of(chance);
}
