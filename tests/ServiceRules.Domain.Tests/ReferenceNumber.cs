using System.Globalization;
using System.Text.Json;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests;

/// <summary>Reads numbers of the reference files, which stand there as JSON numbers or as strings.</summary>
internal static class ReferenceNumber
{
    public static decimal? Exact(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.Null => null,
            JsonValueKind.String => decimal.Parse(
                value.GetString()!,
                NumberStyles.Float,
                CultureInfo.InvariantCulture
            ),
            _ => value.GetDecimal(),
        };

    public static Length? Millimetres(JsonElement value) =>
        Exact(value) is { } number ? Length.FromMillimetres(number) : null;

    public static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    /// <summary>Equal within a distance. (Comparing rounded numbers instead fails on either side of a tie.)</summary>
    public static void Near(decimal expected, decimal actual, decimal within = 0.00000000001m) =>
        Assert.InRange(actual, expected - within, expected + within);
}
