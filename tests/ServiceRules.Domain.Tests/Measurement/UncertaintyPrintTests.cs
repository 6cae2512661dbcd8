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
    [InlineData(0.00991, "0.01 mm", "0.0099 mm")]
    [InlineData(1.1902382, "1.20 mm", "1.10 mm")]
    [InlineData(12.3, "13.00 mm", "12.00 mm")]
    [InlineData(0, "0.00 mm", "0.00 mm")]
    public void Of_Millimetres_KeepsTwoDigitsToTheSafeSide(decimal uncertainty, string up, string down)
    {
        Assert.Equal(up, UncertaintyPrint.Of(Mm(uncertainty), UnitSystem.Metric));
        Assert.Equal(down, UncertaintyPrint.AtMost(Mm(uncertainty), UnitSystem.Metric));
    }

    [Fact]
    public void Of_Inches_KeepsTwoDigitsOfTheInch()
    {
        // 0.013013 mm is 0.00051232 in.
        Assert.Equal("0.00052 in", UncertaintyPrint.Of(Mm(0.013013m), UnitSystem.Inch));
        Assert.Equal("0.00051 in", UncertaintyPrint.AtMost(Mm(0.013013m), UnitSystem.Inch));
    }
}
