using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class ProbabilityTests
{
    [Theory]
    [InlineData(-0.0000000001)]
    [InlineData(1.0000000001)]
    public void Of_OutsideZeroToOne_IsRefused(decimal value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Probability.Of(value));

    [Fact]
    public void Of_TheEnds_AreImpossibleAndCertain()
    {
        Assert.Equal(Probability.Zero, Probability.Of(0m));
        Assert.Equal(Probability.One, Probability.Of(1m));
        Assert.Equal(Probability.Zero, Probability.One.Complement);
    }

    [Theory]
    [InlineData(0.4, 0.6)]
    [InlineData(0.6, 0.4)]
    [InlineData(0.5, 0.5)]
    public void Operators_AnyPair_OrderAsTheirNumbersDo(decimal left, decimal right)
    {
        var (one, other) = (Probability.Of(left), Probability.Of(right));

        Assert.Equal(left < right, one < other);
        Assert.Equal(left > right, one > other);
        Assert.Equal(left <= right, one <= other);
        Assert.Equal(left >= right, one >= other);
        Assert.Equal(left.CompareTo(right), one.CompareTo(other));
    }

    [Fact]
    public void ToString_AnyProbability_HasNoMoreDigitsThanItNeeds()
    {
        Assert.Equal("0.95", Probability.Of(0.950m).ToString());
        Assert.Equal("0.977249868", Probability.Of(0.977249868051m).ToString());
        Assert.Equal("1", Probability.One.ToString());
        Assert.Equal("0", Probability.Zero.ToString());
    }
}
