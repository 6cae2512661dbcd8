using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Domain.Tests.Statistics;

/// <summary>Outside values: the NIST Statistical Reference Datasets with their certified results.</summary>
internal static class ReferenceDataSets
{
    public static IReadOnlyList<JsonElement> Regressions { get; } =
        ReferenceCases.In("metrology/nist-strd", "strd-certified.json", "linear_regression");

    public static IReadOnlyList<JsonElement> Univariate { get; } =
        ReferenceCases.In("metrology/nist-strd", "strd-certified.json", "univariate");

    public static TheoryData<string> Names(IReadOnlyList<JsonElement> sets)
    {
        var names = new TheoryData<string>();
        foreach (var set in sets)
        {
            names.Add(set.GetProperty("dataset").GetString()!);
        }

        return names;
    }

    public static JsonElement Called(this IReadOnlyList<JsonElement> sets, string name) =>
        sets.Single(set => set.GetProperty("dataset").GetString() == name);

    /// <summary>The rows of a set, observed value first.</summary>
    public static ImmutableArray<ImmutableArray<decimal>> Rows(string name) =>
        [
            .. ReferenceFiles
                .ReadRows("metrology", "nist-strd", $"{name}.csv".ToLowerInvariant())
                .Skip(1)
                .Select(row =>
                    row.Split(',')
                        .Select(cell => decimal.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture))
                        .ToImmutableArray()
                ),
        ];

    public static double Certified(JsonElement value) =>
        double.Parse(value.GetString()!, NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>
    /// Equal in relation to the certified value, or to the last place that a decimal has (1e-28): Pontius has a coefficient
    /// of 3e-15.
    /// </summary>
    public static void Near(double certified, decimal actual, double tolerance, string what)
    {
        var off = Math.Abs((double)actual - certified);
        Assert.True(
            off <= Math.Max(tolerance * Math.Abs(certified), 1e-28),
            $"{what}: {actual} is off {certified} by {off:e1}"
        );
    }
}
