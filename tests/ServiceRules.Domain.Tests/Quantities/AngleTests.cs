using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class AngleTests
{
    [Theory]
    [InlineData("30 deg", "30")]
    [InlineData("-0.50 deg", "-0.50")]
    [InlineData("360 deg", "360")]
    public void Parse_Degrees_KeepsValueAndPrint(string text, string degrees)
    {
        Angle angle = Angle.Parse(text).OrThrow();

        Assert.Equal(Exact.Of(degrees), angle.Degrees);
        Assert.Equal(text, angle.ToString());
    }

    [Theory]
    [InlineData("30", "has no space between a number and a unit")]
    [InlineData("30 °", "has no unit of angle that is known here")]
    [InlineData("30 rad", "has no unit of angle that is known here")]
    [InlineData("360.1 deg", "is more than a full turn")]
    [InlineData("-361 deg", "is more than a full turn")]
    [InlineData("3 0 deg", "is not a plain decimal number with a digit on both sides of any point")]
    public void Parse_UnreadableText_SaysWhy(string text, string problem)
    {
        Assert.False(Angle.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
        Assert.Equal(text, failure.Found);
    }

    [Fact]
    public void Comparison_ByValue_IgnoresPrintedZeros()
    {
        Angle coarse = Angle.Parse("30 deg").OrThrow();
        Angle fine = Angle.Parse("30.0 deg").OrThrow();

        Assert.Equal(coarse, fine);
        Assert.True(coarse >= fine && coarse <= fine);
        Assert.True(Angle.Parse("-1 deg").OrThrow() < coarse);
        Assert.True(coarse > default(Angle));
        Assert.Equal("0 deg", default(Angle).ToString());
    }
}
