using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class OperatingHoursTests
{
    [Theory]
    [InlineData("412.5 h", "412.5")]
    [InlineData("0 h", "0")]
    [InlineData("1000000.0 h", "1000000")]
    public void Parse_HourMeter_KeepsValueAndPrint(string text, string hours)
    {
        OperatingHours reading = OperatingHours.Parse(text).OrThrow();

        Assert.Equal(Exact.Of(hours), reading.Hours);
        Assert.Equal(text, reading.ToString());
    }

    [Theory]
    [InlineData("412.5 hours", "has no unit of operating time that is known here")]
    [InlineData("412.5h", "has no space between a number and a unit")]
    [InlineData("-0.1 h", "is below zero, which no hour meter shows")]
    [InlineData("1000000.1 h", "is more than any hour meter shows")]
    [InlineData("", "is empty")]
    public void Parse_UnreadableText_SaysWhy(string text, string problem)
    {
        Assert.False(OperatingHours.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
    }

    [Fact]
    public void Comparison_ByValue_FollowsTheMeter()
    {
        OperatingHours before = OperatingHours.Parse("99.9 h").OrThrow();
        OperatingHours after = OperatingHours.Parse("100 h").OrThrow();

        Assert.True(before < after && before <= after && after > before && after >= before);
        Assert.Equal(after, OperatingHours.Parse("100.0 h").OrThrow());
    }
}
