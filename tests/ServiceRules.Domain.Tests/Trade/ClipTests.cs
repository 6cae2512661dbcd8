using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Domain.Tests.Trade;

[Properties(MaxTest = PropertyCases.Each)]
public sealed class ClipTests
{
    [Property]
    public void Spacing_FasterMachine_IsWider(ushort slow, ushort more, ushort turns, byte blades)
    {
        var slower = Of(slow, turns, blades);
        var faster = Of(slow + more + 1, turns, blades);

        Assert.True(faster.Spacing > slower.Spacing);
        Assert.True(faster.ReelPitch > slower.ReelPitch);
        Assert.True(faster.CutsPerMetre < slower.CutsPerMetre);
        Assert.True(faster.RatioTo(Mm(4)) > slower.RatioTo(Mm(4)));
        Assert.True(faster.RidgeAt(Mm(4)) >= slower.RidgeAt(Mm(4)));
    }

    [Property]
    public void Spacing_FasterReelOrMoreBlades_IsNarrower(ushort speed, ushort turns, byte blades)
    {
        var clip = Of(speed, turns, blades);

        Assert.True(Of(speed, turns + 1, blades).Spacing < clip.Spacing);
        Assert.True(Of(speed, turns, blades + 1).Spacing < clip.Spacing);
    }

    /// <summary>The highest speed keeps the clip and a tenth more does not; likewise one turn and one blade fewer.</summary>
    [Property]
    public void HighestSpeed_AndItsLikes_AreTheLastThatKeepTheClip(
        ushort speed,
        ushort turns,
        byte blades,
        byte tenths
    )
    {
        var height = Mm(2 + (tenths / 10m));
        var clip = Of(speed, turns, blades);
        const decimal Ratio = 1m;

        var fastest = Clip.HighestSpeed(Ratio, height, clip.ReelSpeed, clip.Blades, SpeedUnit.MetrePerMinute);
        var slowest = Clip.LowestReelSpeed(Ratio, height, clip.GroundSpeed, clip.Blades);
        var fewest = Clip.FewestBlades(Ratio, height, clip.GroundSpeed, clip.ReelSpeed);

        // None is below a tenth, or beyond 100 km/h.
        Assert.True(
            fastest is { } speeding
                ? Spacing(speeding.MetresPerHour, clip.ReelSpeed, clip.Blades) <= height.Millimetres
                    && Spacing(speeding.MetresPerHour + 6m, clip.ReelSpeed, clip.Blades) > height.Millimetres
                : Spacing(6m, clip.ReelSpeed, clip.Blades) > height.Millimetres
                    || Spacing(100_000m, clip.ReelSpeed, clip.Blades) < height.Millimetres
        );
        Assert.True(
            slowest is { RevolutionsPerMinute: var turning }
                ? SpacingAt(clip, turning, clip.Blades) <= height.Millimetres
                    && (turning == 1m || SpacingAt(clip, turning - 1m, clip.Blades) > height.Millimetres)
                : SpacingAt(clip, 10_000m, clip.Blades) > height.Millimetres
        );
        Assert.True(
            fewest is { } carried
                ? SpacingAt(clip, clip.ReelSpeed.RevolutionsPerMinute, carried) <= height.Millimetres
                    && (
                        carried == 1
                        || SpacingAt(clip, clip.ReelSpeed.RevolutionsPerMinute, carried - 1)
                            > height.Millimetres
                    )
                : SpacingAt(clip, clip.ReelSpeed.RevolutionsPerMinute, 50) > height.Millimetres
        );
    }

    /// <summary>5 mm at 10 000 rev/min of 50 blades is 150 km/h; at 1 rev/min of one blade 0.0003 km/h.</summary>
    [Fact]
    public void HighestSpeed_ThatNothingGoes_IsNone()
    {
        Assert.Null(Clip.HighestSpeed(1m, Mm(5), Rate(10000), 50, SpeedUnit.KilometrePerHour));
        Assert.Null(Clip.HighestSpeed(1m, Mm(5), Rate(1), 1, SpeedUnit.KilometrePerHour));
    }

    /// <summary>6 km/h over 0.001 mm of height: 10 000 000 turns of ten blades, and 50 000 blades at 2000 rev/min.</summary>
    [Fact]
    public void LowestReelSpeedAndFewestBlades_ThatNoReelHas_AreNone()
    {
        var speed = Speed.Parse("6 km/h").OrThrow();

        Assert.Null(Clip.LowestReelSpeed(1m, Mm(0.001m), speed, 10));
        Assert.Null(Clip.FewestBlades(1m, Mm(0.001m), speed, Rate(2000)));
        Assert.Null(Clip.FewestBlades(1m, Mm(0.0000000001m), speed, Rate(2000)));
    }

    [Fact]
    public void HighestSpeed_ExactlyKept_IsNotRoundedAway() =>
        // 1.0 x 5 mm x 2000 x 10 blades = 100 m/min = 6 km/h.
        Assert.Equal(
            "6 km/h",
            Clip.HighestSpeed(1m, Mm(5), Rate(2000), 10, SpeedUnit.KilometrePerHour).ToString()
        );

    [Fact]
    public void LowestReelSpeedAndFewestBlades_ExactlyKept_AreNotRoundedUp()
    {
        var speed = Speed.Parse("6 km/h").OrThrow();

        Assert.Equal(2000m, Clip.LowestReelSpeed(1m, Mm(5), speed, 10)!.Value.RevolutionsPerMinute);
        Assert.Equal(10, Clip.FewestBlades(1m, Mm(5), speed, Rate(2000)));
    }

    [Fact]
    public void HighestSpeed_InMiles_IsStatedInMiles() =>
        Assert.Equal(
            "3.7 mph",
            Clip.HighestSpeed(1m, Mm(5), Rate(2000), 10, SpeedUnit.MilePerHour).ToString()
        );

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void New_ReelWithoutBlades_IsRefused(int blades) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new Clip(Speed.Parse("6 km/h").OrThrow(), Rate(2000), blades)
        );

    [Fact]
    public void New_NoSpeedAtAll_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Clip(default, Rate(2000), 9));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new Clip(Speed.Parse("6 km/h").OrThrow(), default, 9)
        );
    }

    [Fact]
    public void RatioTo_NoHeight_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Of(1, 1, 1).RatioTo(Length.Zero));

    private static decimal SpacingAt(Clip clip, decimal turns, int blades) =>
        clip.GroundSpeed.MetresPerHour * 1000m / 60m / (turns * blades);

    private static decimal Spacing(decimal metresPerHour, RotationRate reel, int blades) =>
        metresPerHour * 1000m / 60m / (reel.RevolutionsPerMinute * blades);

    /// <summary>More of each number is more speed, more turns, more blades: hundredths of m/min, tenths of rev/min.</summary>
    private static Clip Of(int speed, int turns, int blades) =>
        new(
            Speed.Parse(Text((speed + 1) / 100m) + " m/min").OrThrow(),
            Rate(100m + (turns / 10m)),
            blades + 1
        );

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static RotationRate Rate(decimal figure) =>
        RotationRate.Parse(Text(figure) + " rev/min").OrThrow();

    private static string Text(decimal figure) => figure.ToString(CultureInfo.InvariantCulture);
}
