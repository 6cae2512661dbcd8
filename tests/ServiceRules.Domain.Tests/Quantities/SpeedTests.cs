using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

[Properties(MaxTest = PropertyCases.Each)]
public sealed class SpeedTests
{
    [Theory]
    [InlineData("6 km/h", "6000")]
    [InlineData("3.80 mph", "6115.5072")]
    [InlineData("100 m/min", "6000")]
    [InlineData("100 km/h", "100000")]
    public void Parse_Speed_KeepsValueAndPrint(string text, string metresPerHour)
    {
        var speed = Speed.Parse(text).OrThrow();

        Assert.Equal(Exact.Of(metresPerHour), speed.MetresPerHour);
        Assert.Equal(text, speed.ToString());
    }

    [Theory]
    [InlineData("6 kmh", "has no unit of speed that is known here")]
    [InlineData("6km/h", "has no space between a number and a unit")]
    [InlineData("0 km/h", "is not a speed of going forward")]
    [InlineData("-1 mph", "is not a speed of going forward")]
    [InlineData("100.1 km/h", "is faster than 100 km/h")]
    [InlineData("62.2 mph", "is faster than 100 km/h")]
    public void Parse_UnreadableText_SaysWhy(string text, string problem)
    {
        Assert.False(Speed.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
    }

    [Fact]
    public void Equals_SameSpeedInOtherUnits_IsOneValue()
    {
        var hour = Speed.Parse("6 km/h").OrThrow();
        var minute = Speed.Parse("100.0 m/min").OrThrow();
        var faster = Speed.Parse("3.8 mph").OrThrow();

        Assert.Equal(hour, minute);
        Assert.Equal(hour.GetHashCode(), minute.GetHashCode());
        Assert.True(hour < faster && hour <= minute && faster > minute && hour >= minute);
    }

    [Property]
    public void Parse_OfItsOwnPrint_IsTheSamePrint(ushort hundredths)
    {
        var text = FormattableString.Invariant($"{(hundredths + 1) / 1000m} mph");

        Assert.Equal(text, Speed.Parse(text).OrThrow().ToString());
    }
}
