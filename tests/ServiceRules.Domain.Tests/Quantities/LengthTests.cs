using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class LengthTests
{
    [Fact]
    public void FromInches_OneInch_IsTheInternationalInch() =>
        Assert.Equal(25.4m, Length.FromInches(1m).Millimetres);

    [Theory]
    [InlineData("0.0254", "0.0254 mm")]
    [InlineData("1.27000", "1.27 mm")]
    [InlineData("-0.100", "-0.1 mm")]
    [InlineData("100000", "100000 mm")]
    [InlineData("0.0000000000001", "0.0000000000001 mm")]
    public void ToString_AnyScale_ShowsNoMoreDigitsThanTheLengthHas(string millimetres, string shown) =>
        Assert.Equal(shown, Length.FromMillimetres(Exact.Of(millimetres)).ToString());

    [Fact]
    public void ToString_NegativeZero_HasNoSign()
    {
        Length[] zeros =
        [
            Length.FromMillimetres(Exact.Of("-0.0")),
            -Length.Zero,
            Length.Zero * -1,
            Length.FromMillimetres(-1m) * 0m,
            Length.FromInches(Exact.Of("-0")),
        ];

        Assert.All(zeros, zero => Assert.Equal("0 mm", zero.ToString()));
        Assert.All(zeros, zero => Assert.Equal(Length.Zero.GetHashCode(), zero.GetHashCode()));
    }

    [Fact]
    public void ToStringRounded_SmallNegative_HasNoSign() =>
        Assert.Equal("0.00 mm", Length.FromMillimetres(-0.001m).ToString(LengthUnit.Millimetre, decimals: 2));

    [Fact]
    public void Equals_TrailingZeros_AreTheSameLength()
    {
        Length shorter = Length.FromMillimetres(0.05m);
        Length longer = Length.FromMillimetres(0.050m);

        Assert.Equal(shorter, longer);
        Assert.Equal(shorter.GetHashCode(), longer.GetHashCode());
    }

    // 0.020 + 0.006 is not 0.026 in binary floating point.
    [Fact]
    public void Addition_DecimalTenths_IsExact() =>
        Assert.Equal(
            Length.FromMillimetres(0.026m),
            Length.FromMillimetres(0.020m) + Length.FromMillimetres(0.006m)
        );

    [Fact]
    public void Multiplication_AdjusterSteps_IsExact() =>
        Assert.Equal(0.0508m, (4 * Length.FromMillimetres(0.0127m)).Millimetres);

    [Fact]
    public void Comparison_SignedLengths_FollowsTheNumberLine()
    {
        Length below = Length.FromMillimetres(-0.1m);
        Length above = Length.FromInches(0.001m);

        Assert.True(below < Length.Zero);
        Assert.True(above > below);
        Assert.True(above >= Length.FromMillimetres(0.0254m));
        Assert.True(above <= Length.FromMillimetres(0.0254m));
        Assert.Equal(below, Length.Min(above, below));
        Assert.Equal(above, Length.Max(above, below));
        Assert.Equal(Length.FromMillimetres(0.1m), below.Abs);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(10)]
    public void ToStringRounded_DecimalsOutsideTheRange_Throws(int decimals) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Length.Zero.ToString(LengthUnit.Inch, decimals));
}
