using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class DegreesOfFreedomTests
{
    [Fact]
    public void Of_AHairBelowOne_IsOne() =>
        Assert.Equal(DegreesOfFreedom.Of(1), DegreesOfFreedom.Of(1 - 1e-9));

    [Theory]
    [InlineData(1 - 2e-9)]
    [InlineData(0)]
    [InlineData(double.NaN)]
    public void Of_BelowOne_SaysWhereTheyStart(double value) =>
        Assert.StartsWith(
            "degrees of freedom start at 1",
            Assert.Throws<ArgumentOutOfRangeException>(() => DegreesOfFreedom.Of(value)).Message,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData(999_999.9, false)]
    [InlineData(1_000_000, true)]
    [InlineData(double.PositiveInfinity, true)]
    public void Of_FromAMillionOn_IsInfinite(double value, bool infinite) =>
        Assert.Equal(infinite, DegreesOfFreedom.Of(value).IsInfinite);

    [Fact]
    public void ToString_ANumberOrInfinite_IsShort()
    {
        Assert.Equal("infinite", DegreesOfFreedom.Infinite.ToString());
        Assert.Equal("18.999", DegreesOfFreedom.Of(18.9987).ToString());
        Assert.Equal("5", DegreesOfFreedom.Of(5).ToString());
    }
}
