using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class PrintedLengthTests
{
    // Expected millimetres by hand from 1 in = 25.4 mm and 1 thou = 0.001 in.
    [Theory]
    [InlineData("1/16 in", "1.5875", "0.396875")]
    [InlineData("1 1/16 in", "26.9875", "0.396875")]
    [InlineData("-1 1/2 in", "-38.1", "3.175")]
    [InlineData("1/128 in", "0.1984375", "0.049609375")]
    [InlineData("0.040 in", "1.016", "0.0127")]
    [InlineData("25 um", "0.025", "0.0005")]
    [InlineData("2 thou", "0.0508", "0.0127")]
    [InlineData("0.025 mm", "0.025", "0.0005")]
    [InlineData("-0.1 mm", "-0.1", "0.05")]
    [InlineData("122 mm", "122", "0.5")]
    public void Parse_KnownPrint_GivesExactLengthAndRounding(
        string text,
        string millimetres,
        string halfWidth
    )
    {
        PrintedLength print = PrintedLength.Parse(text).OrThrow();

        Assert.Equal(Exact.Of(millimetres), print.Value.Millimetres);
        Assert.Equal(Exact.Of(halfWidth), print.RoundingHalfWidth.Millimetres);
    }

    [Theory]
    [InlineData("0.050 mm", "0.050 mm")]
    [InlineData("25 um", "25 \u00B5m")]
    [InlineData("25 \u03BCm", "25 \u00B5m")]
    [InlineData("25 \u00B5m", "25 \u00B5m")]
    [InlineData("2/16 in", "2/16 in")]
    [InlineData("-0.00 mm", "0.00 mm")]
    public void ToString_ReadPrint_KeepsDigitsAndUnit(string text, string canonical) =>
        Assert.Equal(canonical, PrintedLength.Parse(text).OrThrow().ToString());

    [Theory]
    [InlineData("")]
    [InlineData("0.05")]
    [InlineData("0.05mm")]
    [InlineData(" 0.05 mm")]
    [InlineData("0.05 mm ")]
    [InlineData("0.05 mm\n")]
    [InlineData("0.05  mm")]
    [InlineData("0.05\u00A0mm")]
    [InlineData("0.05\tmm")]
    [InlineData("0.05 \"")]
    [InlineData("0.05 MM")]
    [InlineData("0,05 mm")]
    [InlineData("1,000 mm")]
    [InlineData(".05 mm")]
    [InlineData("5. mm")]
    [InlineData("05 mm")]
    [InlineData("+5 mm")]
    [InlineData("5e1 mm")]
    [InlineData("--5 mm")]
    [InlineData("\u22125 mm")]
    [InlineData("\u0665 mm")]
    [InlineData("NaN mm")]
    [InlineData("1/16 mm")]
    [InlineData("1/3 in")]
    [InlineData("1/256 in")]
    [InlineData("1/1 in")]
    [InlineData("3/2 in")]
    [InlineData("0/16 in")]
    [InlineData("0 1/16 in")]
    [InlineData("1  1/16 in")]
    [InlineData("1/0 in")]
    [InlineData("1/16")]
    [InlineData("1234567890123 mm")]
    [InlineData("100000.1 mm")]
    [InlineData("-100000.1 mm")]
    [InlineData("3937.1 in")]
    [InlineData("0.00000000000000000000000000000000000001 mm")]
    public void Parse_TextOutsideTheGrammar_IsRefused(string text) =>
        Assert.False(PrintedLength.Parse(text).TryGet(out _, out _));
}
