using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class RunningQuantitiesTests
{
    [Theory]
    [InlineData("2200 rev/min")]
    [InlineData("0.5 rev/min")]
    [InlineData("10000 rev/min")]
    public void Parse_RotationRate_KeepsItsPrint(string text) =>
        Assert.Equal(text, RotationRate.Parse(text).OrThrow().ToString());

    [Theory]
    [InlineData("2200 rpm", "has no unit of turning that is known here")]
    [InlineData("0 rev/min", "is not a speed of turning forward")]
    [InlineData("10000.1 rev/min", "is faster than any reel turns")]
    [InlineData("2200rev/min", "has no space between a number and a unit")]
    public void Parse_UnreadableRotationRate_SaysWhy(string text, string problem)
    {
        Assert.False(RotationRate.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
    }

    [Fact]
    public void Comparison_RotationRates_IsByValue()
    {
        var slow = RotationRate.Parse("1800 rev/min").OrThrow();
        var fast = RotationRate.Parse("2200 rev/min").OrThrow();

        Assert.True(slow < fast && slow <= fast && fast > slow && fast >= slow);
        Assert.Equal(slow, RotationRate.Parse("1800.0 rev/min").OrThrow());
    }

    [Theory]
    [InlineData("0.0034 mm/h", "0.0034", "0.0034 mm/h")]
    [InlineData("0.0001 in/h", "0.00254", "0.00254 mm/h")]
    [InlineData("0 mm/h", "0", "0 mm/h")]
    [InlineData("1 mm/h", "1", "1 mm/h")]
    public void Parse_WearRate_IsExactInMillimetres(string text, string millimetres, string print)
    {
        var rate = WearRate.Parse(text).OrThrow();

        Assert.Equal(Exact.Of(millimetres), rate.MillimetresPerHour);
        Assert.Equal(print, rate.ToString());
    }

    [Theory]
    [InlineData("0.0034 mm", "has no unit of wear that is known here")]
    [InlineData("-0.0034 mm/h", "is below zero; wear is stated without a sign")]
    [InlineData("1.01 mm/h", "is more than 1 mm in an hour")]
    [InlineData("0.04 in/h", "is more than 1 mm in an hour")]
    public void Parse_UnreadableWearRate_SaysWhy(string text, string problem)
    {
        Assert.False(WearRate.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
    }

    [Fact]
    public void Of_ChangeOverTime_GivesTheChangeBack()
    {
        var rate = WearRate.Of(Length.FromMillimetres(-0.68m), RunningTime.FromHours(200m));

        Assert.Equal("-0.0034 mm/h", rate.ToString());
        Assert.Equal(Length.FromMillimetres(-0.68m), rate * RunningTime.FromHours(200m));
        Assert.True(
            rate < WearRate.Zero && rate <= WearRate.Zero && WearRate.Zero > rate && WearRate.Zero >= rate
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => WearRate.Of(Length.Zero, RunningTime.Zero));
    }

    [Fact]
    public void Since_AnEarlierReading_IsTheTimeBetween()
    {
        var before = OperatingHours.Parse("412.5 h").OrThrow();
        var after = OperatingHours.Parse("430 h").OrThrow();

        Assert.Equal("17.5 h", after.Since(before).ToString());
        Assert.Equal("-17.5 h", before.Since(after).ToString());
    }

    [Fact]
    public void Parse_RunningTime_ReadsHoursAlone()
    {
        var week = RunningTime.Parse("18.0 h").OrThrow();

        Assert.Equal(RunningTime.FromHours(18m), week);
        Assert.Equal("36 h", (week + week).ToString());
        Assert.Equal("0 h", (week - week).ToString());
        Assert.True(
            week > RunningTime.Zero
                && week >= RunningTime.Zero
                && RunningTime.Zero < week
                && RunningTime.Zero <= week
        );
        Assert.False(RunningTime.Parse("18").TryGet(out _, out _));
    }
}
