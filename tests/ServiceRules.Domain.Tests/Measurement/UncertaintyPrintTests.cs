using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class UncertaintyPrintTests
{
    [Theory]
    [InlineData(0.1212, "0.13 mm", "0.12 mm")]
    [InlineData(0.12, "0.12 mm", "0.12 mm")]
    [InlineData(0.0130130, "0.014 mm", "0.013 mm")]
    [InlineData(0.0099, "0.0099 mm", "0.0099 mm")]
    [InlineData(0.00991, "0.010 mm", "0.0099 mm")]
    [InlineData(1.1902382, "1.2 mm", "1.1 mm")]
    [InlineData(9.91, "10 mm", "9.9 mm")]
    [InlineData(12.3, "13 mm", "12 mm")]
    [InlineData(123.4, "130 mm", "120 mm")]
    [InlineData(0.099, "0.099 mm", "0.099 mm")]
    [InlineData(0.0990001, "0.10 mm", "0.099 mm")]
    [InlineData(0.0999999, "0.10 mm", "0.099 mm")]
    [InlineData(0.1, "0.10 mm", "0.10 mm")]
    [InlineData(99, "99 mm", "99 mm")]
    [InlineData(99.5, "100 mm", "99 mm")]
    [InlineData(0.0000001, "0.000001 mm", "0.000000 mm")]
    [InlineData(0.000099, "0.000099 mm", "0.000099 mm")]
    [InlineData(0, "0.00 mm", "0.00 mm")]
    public void Of_Millimetres_KeepsTwoDigitsToTheSafeSide(decimal uncertainty, string up, string down)
    {
        Assert.Equal(up, UncertaintyPrint.Of(Mm(uncertainty), UnitSystem.Metric));
        Assert.Equal(down, UncertaintyPrint.AtMost(Mm(uncertainty), UnitSystem.Metric));
    }

    // The digits are those of the uncertainty as printed, so that both end at one place; halves go to the even digit.
    [Theory]
    [InlineData(3.9212, 0.0221, "3.921 mm ± 0.023 mm")]
    [InlineData(0.1505625, 0.00064, "0.15056 mm ± 0.00064 mm")]
    [InlineData(4.02, 0.0130130, "4.020 mm ± 0.014 mm")]
    [InlineData(4.0625, 0.00991, "4.062 mm ± 0.010 mm")]
    [InlineData(4.06, 1.1902382, "4.1 mm ± 1.2 mm")]
    [InlineData(3.8325, 0.0117, "3.832 mm ± 0.012 mm")]
    [InlineData(-0.0004, 0.013, "0.000 mm ± 0.013 mm")]
    [InlineData(-0.0525, 0.013, "-0.052 mm ± 0.013 mm")]
    [InlineData(125, 123.4, "120 mm ± 130 mm")]
    [InlineData(4.02, 0, "4.02 mm ± 0.00 mm")]
    [InlineData(4.00005, 0, "4.00 mm ± 0.00 mm")]
    [InlineData(4.00015, 0, "4.0002 mm ± 0.00 mm")]
    [InlineData(-0.00001, 0, "0.00 mm ± 0.00 mm")]
    [InlineData(4.5, 12, "4 mm ± 12 mm")]
    [InlineData(5.5, 12, "6 mm ± 12 mm")]
    [InlineData(4.0125, 0.0990001, "4.01 mm ± 0.10 mm")]
    [InlineData(4.0125, 0.099, "4.012 mm ± 0.099 mm")]
    [InlineData(-4.0135, 0.013, "-4.014 mm ± 0.013 mm")]
    [InlineData(1.2345678, 0.0000001, "1.234568 mm ± 0.000001 mm")]
    public void Beside_Value_EndsAtThePlaceOfItsUncertainty(
        decimal value,
        decimal uncertainty,
        string printed
    ) => Assert.Equal(printed, UncertaintyPrint.Beside(Mm(value), Mm(uncertainty), UnitSystem.Metric));

    // 4.02 mm is 0.158268 in, 0.013013 mm is 0.000512 in.
    [Fact]
    public void Beside_Inches_EndsAtThePlaceOfItsUncertainty() =>
        Assert.Equal(
            "0.15827 in ± 0.00052 in",
            UncertaintyPrint.Beside(Mm(4.02m), Mm(0.013013m), UnitSystem.Inch)
        );

    // 4.02 mm is 0.1582677 in, 3.81 mm is 0.15 in.
    [Theory]
    [InlineData(4.02, "0.15827 in ± 0.00 in")]
    [InlineData(3.81, "0.150 in ± 0.00 in")]
    public void Beside_ExactInches_KeepsFiveDecimals(decimal value, string printed) =>
        Assert.Equal(printed, UncertaintyPrint.Beside(Mm(value), Mm(0m), UnitSystem.Inch));

    // No finer than a millionth, however many digits are asked for.
    [Theory]
    [InlineData(1, "0.0131", "4.0201")]
    [InlineData(2, "0.01302", "4.02006")]
    [InlineData(9, "0.013013", "4.020064")]
    public void Figure_Finer_TellsSoManyDigitsMore(int finer, string figure, string value)
    {
        Assert.Equal(figure, UncertaintyPrint.Figure(Mm(0.013013m), UnitSystem.Metric, finer));
        Assert.Equal(
            value,
            UncertaintyPrint.ValueFigure(Mm(4.0200637m), Mm(0.013013m), UnitSystem.Metric, finer)
        );
    }

    // 0.0001213 to two digits is 0.00013; the third is the millionth, and there it ends.
    [Fact]
    public void Figure_FinerThanAMillionth_EndsThere() =>
        Assert.Equal("0.000122", UncertaintyPrint.Figure(Mm(0.0001213m), UnitSystem.Metric, 3));

    [Fact]
    public void Of_Inches_KeepsTwoDigitsOfTheInch()
    {
        // 0.013013 mm is 0.00051232 in.
        Assert.Equal("0.00052 in", UncertaintyPrint.Of(Mm(0.013013m), UnitSystem.Inch));
        Assert.Equal("0.00051 in", UncertaintyPrint.AtMost(Mm(0.013013m), UnitSystem.Inch));
    }
}
