using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Tests.Reports;

public class LengthPrintTests
{
    private static Comparison Read(
        string? value,
        string? doubt,
        string? lower = null,
        string? upper = null
    ) =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Place = "51 mm",
            Verdict = Verdict.Met,
            Reason = FindingReason.None,
            Value = Length(value),
            Uncertainty = Length(doubt),
            KnownLower = Length(lower),
            KnownUpper = Length(upper),
        };

    private static Length? Length(string? text) =>
        text is not null && PrintedLength.Parse(text).TryGet(out var print, out _) ? print.Value : null;

    [Theory]
    [InlineData("3.8225 mm", "0.0141 mm", "3.822 ± 0.015 mm")]
    [InlineData("3.80 mm", "0.0150 mm", "3.80 ± 0.015 mm")]
    [InlineData("3.80 mm", null, "3.80 mm")]
    public void Known_Value_StandsToTheDecimalOfItsUncertaintyRoundedUp(
        string value,
        string? doubt,
        string expected
    ) => Assert.Equal(expected, LengthPrint.Known(Read(value, doubt), UnitSystem.Metric));

    [Theory]
    [InlineData("0.001 in", "0.0015 in", "0.001 to 0.0015 in")]
    [InlineData("0.001 in", null, "at least 0.001 in")]
    [InlineData(null, "0.0015 in", "less than 0.0015 in")]
    [InlineData(null, null, "not known")]
    public void Known_Interval_SaysItsEnds(string? lower, string? upper, string expected) =>
        Assert.Equal(expected, LengthPrint.Known(Read(null, null, lower, upper), UnitSystem.Inch));

    [Theory]
    [InlineData("-0.1125 mm", "−0.112")]
    [InlineData("0.0004 mm", "0.0004")]
    public void Margin_Signed_KeepsItsSignAndThreeFigures(string margin, string expected) =>
        Assert.Equal(expected, LengthPrint.Margin(Length(margin)!.Value, UnitSystem.Metric));
}
