using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>One comparison on one line: place, what is known, limit, margin, probability.</summary>
internal static class ComparisonLine
{
    /// <param name="comparison">What is told, in the units of its own readings.</param>
    /// <param name="otherwise">The units where it does not say.</param>
    public static string Of(Comparison comparison, UnitSystem otherwise)
    {
        var system = comparison.ToldIn ?? otherwise;
        var word = comparison.Verdict switch
        {
            Verdict.Met => "in",
            Verdict.NotMet => "out",
            Verdict.Unproven => "not proven",
            _ => "does not apply",
        };
        List<string> parts = [$"{comparison.Place}: {word}", LengthPrint.Known(comparison, system)];
        if (LengthPrint.Corrected(comparison, system) is { } corrected)
        {
            parts[^1] += $" ({corrected})";
        }

        if (LengthPrint.Limits(comparison, system) is { Length: > 0 } limits)
        {
            parts.Add($"limit {limits}");
        }

        if (LengthPrint.Margin(comparison, system) is { Length: > 0 } margin)
        {
            parts.Add($"margin {margin}");
        }

        if (ChanceWords.Risk(comparison) is { } risk)
        {
            parts.Add(risk);
        }

        return string.Join(", ", parts);
    }
}
