using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class PressureTests
{
    [Theory]
    [InlineData("0 bar")]
    [InlineData("0.0 psi")]
    [InlineData("350 kPa")]
    [InlineData("1000 bar")]
    public void ToString_ReadPressure_KeepsDigitsAndUnit(string text) =>
        Assert.Equal(text, Pressure.Parse(text).OrThrow().ToString());

    // NIST SP 811 (2008) B.8: 1 psi is 6.894 757 kPa to seven digits.
    [Fact]
    public void CompareTo_PsiAndKilopascal_BracketTheTabulatedFactor()
    {
        Pressure pound = Pressure.Parse("1 psi").OrThrow();

        Assert.True(Pressure.Parse("6.8947565 kPa").OrThrow() < pound);
        Assert.True(Pressure.Parse("6.8947575 kPa").OrThrow() > pound);
    }

    [Fact]
    public void Equals_SamePressureInOtherUnits_IsOneValue()
    {
        Pressure bar = Pressure.Parse("1.5 bar").OrThrow();
        Pressure kilopascal = Pressure.Parse("150.0 kPa").OrThrow();

        Assert.Equal(bar, kilopascal);
        Assert.Equal(bar.GetHashCode(), kilopascal.GetHashCode());
        Assert.True(bar <= kilopascal && bar >= kilopascal);
    }

    [Fact]
    public void IsZero_AnyUnit_IsTheSameFact()
    {
        Assert.True(Pressure.Parse("0 bar").OrThrow().IsZero);
        Assert.True(Pressure.Parse("-0.0 psi").OrThrow().IsZero);
        Assert.Equal(Pressure.Parse("0 bar").OrThrow(), Pressure.Parse("0 psi").OrThrow());
        Assert.False(Pressure.Parse("0.1 bar").OrThrow().IsZero);
        Assert.Equal("0 bar", default(Pressure).ToString());
    }

    [Theory]
    [InlineData("3 atm", "has no unit of pressure that is known here")]
    [InlineData("3 BAR", "has no unit of pressure that is known here")]
    [InlineData("-1 bar", "is below zero, which is suction and not pressure")]
    [InlineData("1000.1 bar", "is more than 1000 bar")]
    [InlineData("14504 psi", "is more than 1000 bar")]
    public void Parse_UnreadableText_SaysWhy(string text, string problem)
    {
        Assert.False(Pressure.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
        Assert.Equal(Pressure.AcceptedForms, failure.Accepted);
    }
}
