using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>
/// What an uncertainty is made of, in words with every figure that it takes to reckon U again: each contribution, u, its
/// degrees of freedom, k, its level, and U.
/// </summary>
public static class BudgetWords
{
    private const int MetricDecimals = 6;
    private const int InchDecimals = 7;

    /// <summary>The whole account on one line.</summary>
    public static string Of(StatedBudget budget, UnitSystem system)
    {
        ArgumentNullException.ThrowIfNull(budget);
        var lines = budget.Contributions.Select(line =>
            $"{ReportWords.Of(line.Source)} {Figure(line.Uncertainty, system)}{On(line.DegreesOfFreedom)}{(line.IsCounted ? "" : ", not counted")}"
        );
        var unit = LengthPrint.Unit(system);
        var whole =
            $"{string.Join("; ", lines)}; together u = {Figure(budget.Combined, system)} {unit}, {Known(budget.DegreesOfFreedom)}, k = {Factor(budget.CoverageFactor)} at {StatedBudget.Level}";
        var u = $"U = {Figure(budget.Expanded, system)} {unit}";
        return budget.RestsOn is { } part
            ? $"{whole}; what counts by itself comes to more: u = {Figure(part.Combined, system)} {unit}, {Known(part.DegreesOfFreedom)}, k = {Factor(part.CoverageFactor)}; {u}"
            : $"{whole}; {u}";
    }

    /// <summary>Places with one and the same account, told once; in the order of the first of each.</summary>
    /// <param name="comparisons">What was compared.</param>
    /// <param name="otherwise">The units where a comparison does not say.</param>
    public static IEnumerable<string> Of(IEnumerable<Comparison> comparisons, UnitSystem otherwise) =>
        comparisons
            .Where(comparison => comparison.Budget is not null)
            .GroupBy(comparison => Of(comparison.Budget!, comparison.ToldIn ?? otherwise))
            .Select(alike =>
                $"{string.Join(", ", alike.Select(one => one.Place).Distinct(StringComparer.Ordinal))}: {alike.Key}"
            );

    /// <summary>k as it is told: four decimals, those that are nothing left out.</summary>
    public static string Factor(decimal factor) => factor.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>A figure of a budget without its unit, rounded up so that it never looks smaller than it is.</summary>
    public static string Figure(Length length, UnitSystem system)
    {
        var (size, decimals) =
            system is UnitSystem.Inch
                ? (length.Millimetres / 25.4m, InchDecimals)
                : (length.Millimetres, MetricDecimals);
        var scale = (decimal)Math.Pow(10, decimals);
        return (decimal.Ceiling(size * scale) / scale).ToString(
            "0." + new string('#', decimals),
            CultureInfo.InvariantCulture
        );
    }

    private static string Figure(StandardUncertainty uncertainty, UnitSystem system) =>
        Figure(uncertainty.Value, system);

    private static string On(DegreesOfFreedom degrees) =>
        degrees.IsInfinite ? "" : $" (on {degrees} degrees of freedom)";

    private static string Known(DegreesOfFreedom degrees) =>
        degrees.IsInfinite ? "taken as known" : $"on {degrees} degrees of freedom";
}
