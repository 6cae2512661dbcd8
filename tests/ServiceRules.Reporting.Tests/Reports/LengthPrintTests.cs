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
    [InlineData("3.80 mm", "0.0150 mm", "3.800 ± 0.015 mm")]
    [InlineData("0.1506 mm", "0.00064 mm", "0.15060 ± 0.00064 mm")]
    [InlineData("4.06 mm", "1.19 mm", "4.1 ± 1.2 mm")]
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

    // Of a margin that is nothing at the place of the uncertainty its own digits are told.
    [Theory]
    [InlineData("-0.1125 mm", "0.014 mm", "−0.112")]
    [InlineData("-0.1125 mm", "0.12 mm", "−0.11")]
    [InlineData("0.0004 mm", "0.014 mm", "0.0004")]
    [InlineData("0.0004 mm", null, "0.0004")]
    [InlineData(null, "0.014 mm", "")]
    public void Margin_Signed_EndsAtThePlaceOfTheUncertainty(
        string? margin,
        string? doubt,
        string expected
    ) =>
        Assert.Equal(
            expected,
            LengthPrint.Margin(Read("3.80 mm", doubt) with { Margin = Length(margin) }, UnitSystem.Metric)
        );

    [Theory]
    [InlineData("3.8225 mm", "0.0141 mm", null, null, "3.822")]
    [InlineData(null, null, "0.02545 mm", "0.03815 mm", "0.0254–0.0382")]
    [InlineData(null, null, "0.02545 mm", null, "≥ 0.0254")]
    [InlineData(null, null, null, "0.03815 mm", "< 0.0382")]
    public void Short_IsWhatIsKnownWithoutUnit(
        string? value,
        string? doubt,
        string? lower,
        string? upper,
        string expected
    ) => Assert.Equal(expected, LengthPrint.Short(Read(value, doubt, lower, upper), UnitSystem.Metric));

    // Limit 3.93 mm, guard U: 0.1171 is more than 0.1125, 0.01404 more than 0.01401, 0.01396 less than 0.01399.
    [Theory]
    [InlineData("3.8129 mm", "0.1125 mm", "3.813 ± 0.113 mm", "0.117")]
    [InlineData("3.91596 mm", "0.01401 mm", "3.91596 ± 0.01401 mm", "0.01404")]
    [InlineData("3.91604 mm", "0.01399 mm", "3.91604 ± 0.01399 mm", "0.01396")]
    [InlineData("3.91600 mm", "0.01400 mm", "3.916 ± 0.014 mm", "0.014")]
    [InlineData("3.80000 mm", "0.01401 mm", "3.800 ± 0.015 mm", "0.130")]
    public void Known_MarginAlmostTheUncertainty_IsPrintedWithTheDigitsThatTellThemApart(
        string value,
        string doubt,
        string known,
        string margin
    )
    {
        var limit = Length("3.93 mm")!.Value;
        var read = Read(value, doubt) with
        {
            UpperLimit = limit,
            AcceptUpper = limit - Length(doubt)!.Value,
            Margin = limit - Length(value)!.Value,
        };

        Assert.Equal(known, LengthPrint.Known(read, UnitSystem.Metric));
        Assert.Equal(margin, LengthPrint.Margin(read, UnitSystem.Metric));
    }
}
