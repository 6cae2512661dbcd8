using System.Collections.Immutable;
using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Tests.Trade;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Domain.Tests.Wear;

[Properties(MaxTest = PropertyCases.Each)]
public sealed class RobustTrendTests
{
    /// <summary>
    /// The example of P. K. Sen, Journal of the American Statistical Association 63 (1968) 1379, as the tests of the SciPy
    /// library print it (scipy.stats.theilslopes, mstats tests): slope 4, level by medians 6.0, interval 3.71 to 4.38. Sen
    /// states 93 % for it, which is the chance that fewer than 5 of 21 pairs go against the trend on either side; the
    /// interval between the 4th and 18th slope covers 1 - 2 · 76/5040 = 96.98 %, counted over all orders, and that is said here.
    /// </summary>
    [Fact]
    public void Through_SenOfNineteenSixtyEight_GivesThePublishedSlopeAndInterval()
    {
        var trend = RobustTrend.Through(Points([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78]))!;

        Assert.Equal(4m, trend.Slope.MillimetresPerHour);
        Assert.Equal(Mm(6), trend.At(Hours(0)));
        Assert.Equal(3.71m, Math.Round(trend.Least.MillimetresPerHour, 2));
        Assert.Equal(4.38m, Math.Round(trend.Greatest.MillimetresPerHour, 2, MidpointRounding.AwayFromZero));
        Assert.Equal(0.969841270m, trend.Level.Value);
        Assert.Equal(7, trend.Readings);
    }

    [Fact]
    public void Through_SenAtNinetyThreePerCent_TakesTheNextSlopesInside()
    {
        var trend = RobustTrend.Through(
            Points([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78]),
            Probability.Of(0.93m)
        )!;

        // 1 - 2 · 174/5040, counted by hand over the 5040 orders of seven readings.
        Assert.Equal(0.930952381m, trend.Level.Value);
        Assert.Equal(3.75m, trend.Least.MillimetresPerHour);
        Assert.Equal(4.18m, Math.Round(trend.Greatest.MillimetresPerHour, 2));
    }

    // SciPy's first test of the same function: three readings 0, 1, 1; the level by medians of what is left is 0.
    [Fact]
    public void Through_ThreeReadings_BoundsTheSlopeByTwoThirdsOnly()
    {
        var trend = RobustTrend.Through(Points([0, 1, 2], [0, 1, 1]))!;

        Assert.Equal(0.5m, trend.Slope.MillimetresPerHour);
        Assert.Equal(Mm(0), trend.At(Hours(0)));
        Assert.Equal(0.666666667m, trend.Level.Value);
        Assert.Equal((0m, 1m), (trend.Least.MillimetresPerHour, trend.Greatest.MillimetresPerHour));
    }

    /// <summary>
    /// F34 as printed: slope -0.0034, 2206 h counted from the last reading, band 1875 to 2619 h from the extreme slopes.
    /// We count from the fitted line at the last hours instead (125.600 rather than the 125.61 read), which is 2203 h, 1872 to
    /// 2615; and we say that extreme slopes of four readings cover 1 - 2/24 = 91.7 %.
    /// </summary>
    [Fact]
    public void Reach_F34_IsAsPrintedFromTheReadingAndAWhiskerLessFromTheLine()
    {
        var formula = TradeFormula.Named("F34");
        var limit = Mm(formula.Given("limit"));
        var values = formula.GivenList("y");
        var trend = RobustTrend.Through(Points(formula.GivenList("t"), values))!;
        var last = Mm(values[^1]);

        formula.Prints("slope_mm_per_h", trend.Slope.MillimetresPerHour);
        formula.Prints("hours_left", Left(trend.Slope));
        formula.Print("band_h", [Left(trend.Least), Left(trend.Greatest)]);

        var forecast = Assert.IsType<WearForecast.Reaches>(trend.Reach(limit, LimitSide.Lower));
        Assert.Equal(125.600m, Math.Round(trend.At(trend.Last).Millimetres, 3));
        Assert.Equal(2203m, Math.Round(forecast.Left.Hours));
        Assert.Equal(1872m, Math.Round(forecast.Earliest!.Value.Hours));
        Assert.Equal(2615m, Math.Round(forecast.Latest!.Value.Hours));
        Assert.Equal(0.916666667m, forecast.Level.Value);

        // 2206 h at 18 h a week are 122.5 weeks, printed as 123; 2203 h are 122 weeks and 3 days.
        var dates = ForecastDates.Of(
            forecast,
            new(2026, 4, 13),
            RunningTime.FromHours(formula.Given("hours_per_week"))
        )!;
        Assert.Equal(new DateOnly(2026, 4, 13).AddDays(856), dates.On);
        formula.Prints("weeks_left", Left(trend.Slope) / formula.Given("hours_per_week"));

        decimal Left(WearRate rate) =>
            ReelLife
                .HoursLeft(last, limit, WearRate.FromMillimetresPerHour(-rate.MillimetresPerHour))!
                .Value.Hours;
    }

    [Fact]
    public void Through_TwoDifferentHours_IsNoTrend() =>
        Assert.Null(RobustTrend.Through(Points([0, 0, 5], [1, 2, 3])));

    [Fact]
    public void Through_ReadingsAtTheSameHours_CountAsTheirMean()
    {
        var twice = RobustTrend.Through(Points([0, 0, 5, 10], [9, 11, 8, 5]))!;

        Assert.Equal(3, twice.Readings);
        Assert.Equal(RobustTrend.Through(Points([0, 5, 10], [10, 8, 5])), twice);
    }

    [Fact]
    public void Reach_LineAtTheLimit_IsReachedByNothing() =>
        Assert.Equal(new WearForecast.Reached(Length.Zero), Falling().Reach(Mm(8), LimitSide.Lower));

    [Fact]
    public void Reach_LinePastTheLimit_SaysByHowMuch() =>
        Assert.Equal(new WearForecast.Reached(Mm(2)), Falling().Reach(Mm(10), LimitSide.Lower));

    [Fact]
    public void Reach_OnTheOtherSide_IsNotApproached() =>
        Assert.Equal(new WearForecast.NotApproaching(), Falling().Reach(Mm(20), LimitSide.Upper));

    [Fact]
    public void Reach_LevelLine_IsNotApproached() =>
        Assert.Equal(
            new WearForecast.NotApproaching(),
            RobustTrend.Through(Points([0, 1, 2], [5, 5, 5]))!.Reach(Mm(4), LimitSide.Lower)
        );

    [Fact]
    public void Reach_GrowingValue_ComesToItsUpperLimit()
    {
        var land = RobustTrend.Through(Points([0, 100, 200], [1.0m, 1.5m, 2.0m]))!;

        var forecast = Assert.IsType<WearForecast.Reaches>(land.Reach(Mm(3), LimitSide.Upper));

        Assert.Equal(RunningTime.FromHours(200m), forecast.Left);
        Assert.Equal((forecast.Left, forecast.Left), (forecast.Earliest!.Value, forecast.Latest!.Value));
    }

    [Fact]
    public void Reach_BandWithRatesThatNeverCome_HasNoLatest()
    {
        // Slopes -2, -0.5 and 1: the middle one falls, the band does not bound when.
        var uneven = RobustTrend.Through(Points([0, 1, 2], [10, 8, 9]))!;

        var forecast = Assert.IsType<WearForecast.Reaches>(uneven.Reach(Mm(5), LimitSide.Lower));

        Assert.Null(forecast.Latest);
        Assert.True(forecast.Earliest < forecast.Left);
    }

    [Property]
    public void Through_AnyOrder_IsTheSameTrend(short[] values)
    {
        var points = Wandering(values);

        Assert.Equal(RobustTrend.Through(points), RobustTrend.Through(Enumerable.Reverse(points)));
    }

    [Property]
    public void Through_AllShifted_ShiftsTheLineAndNothingElse(short[] values, short by)
    {
        var points = Wandering(values);
        var trend = RobustTrend.Through(points)!;

        var shifted = RobustTrend.Through(
            points.Select(point => point with { Value = point.Value + Mm(by) })
        )!;

        Assert.Equal(
            (trend.Slope, trend.Least, trend.Greatest),
            (shifted.Slope, shifted.Least, shifted.Greatest)
        );
        Assert.Equal(trend.At(trend.Last) + Mm(by), shifted.At(shifted.Last));
    }

    [Property]
    public void Through_AllScaled_ScalesTheSlope(short[] values, byte times)
    {
        var points = Wandering(values);
        var trend = RobustTrend.Through(points)!;

        var scaled = RobustTrend.Through(
            points.Select(point => point with { Value = point.Value * (times + 1) })
        )!;

        Near(trend.Slope.MillimetresPerHour * (times + 1), scaled.Slope.MillimetresPerHour);
        Near(trend.Greatest.MillimetresPerHour * (times + 1), scaled.Greatest.MillimetresPerHour);
    }

    [Property]
    public void Through_AnyReadings_HasItsSlopeInsideTheBand(short[] values)
    {
        var trend = RobustTrend.Through(Wandering(values))!;

        Assert.True(trend.Least <= trend.Slope && trend.Slope <= trend.Greatest);
        Assert.True(trend.Readings < 6 || trend.Level >= Probability.Of(0.95m));
    }

    /// <summary>A limit further off is reached later, and never outside its own band.</summary>
    [Property]
    public void Reach_LimitFurtherOff_TakesLonger(short[] values, byte far, byte further)
    {
        var trend = RobustTrend.Through(Wandering(values, -1))!;
        var at = trend.At(trend.Last);

        if (
            trend.Reach(at - Mm(far + 1), LimitSide.Lower) is WearForecast.Reaches near
            && trend.Reach(at - Mm(far + further + 2), LimitSide.Lower) is WearForecast.Reaches later
        )
        {
            Assert.True(later.Left > near.Left);
            Assert.True(near.Earliest <= near.Left && (near.Latest is null || near.Latest >= near.Left));
            Assert.True(later.Earliest > near.Earliest);
        }
        else
        {
            Assert.True(trend.Slope >= WearRate.Zero);
        }
    }

    [Property]
    public void Reach_FasterWear_ComesSooner(short[] values, byte more)
    {
        var points = Wandering(values, -1);
        var limit = Mm(-100_000);

        // So much steeper, turned about the last reading's hours.
        var last = points[^1].At;
        var steeper = points.Select(point =>
            point with
            {
                Value = point.Value + Mm((more + 1) * last.Since(point.At).Hours),
            }
        );

        if (
            RobustTrend.Through(points)!.Reach(limit, LimitSide.Lower) is WearForecast.Reaches slow
            && RobustTrend.Through(steeper)!.Reach(limit, LimitSide.Lower) is WearForecast.Reaches fast
        )
        {
            Assert.True(fast.Left < slow.Left);
        }
    }

    [Fact]
    public void Through_MoreThanThreeHundredReadings_CountsTheLast()
    {
        var points = Enumerable
            .Range(0, 301)
            .Select(at => new WearPoint(Hours(at), Mm(at == 0 ? 50 : 500 - at)));

        var trend = RobustTrend.Through(points)!;

        Assert.Equal(300, trend.Readings);
        Assert.Equal(-1m, trend.Least.MillimetresPerHour);
    }

    /// <summary>1e-28 mm in an hour would come to 100 mm after 1e30 h, more than a decimal holds.</summary>
    [Fact]
    public void Reach_ARateOfRounding_DoesNotApproach() =>
        Assert.IsType<WearForecast.NotApproaching>(
            RobustTrend.Through(Points([0, 1, 2], [0, -1e-28m, -2e-28m]))!.Reach(Mm(-100), LimitSide.Lower)
        );

    private static RobustTrend Falling() => RobustTrend.Through(Points([0, 1, 2], [10, 9, 8]))!;

    private static ImmutableArray<WearPoint> Wandering(short[] values, int drift = 0) =>
        [
            .. values
                .Take(40)
                .Concat<short>([3, 1, 2])
                .Select((value, at) => new WearPoint(Hours(at * 7), Mm(value + (drift * 1000m * at)))),
        ];

    private static ImmutableArray<WearPoint> Points(
        IReadOnlyList<decimal> hours,
        IReadOnlyList<decimal> values
    ) => [.. hours.Select((at, index) => new WearPoint(Hours(at), Mm(values[index])))];

    private static void Near(decimal expected, decimal actual) =>
        Assert.InRange(actual, expected - 1e-12m, expected + 1e-12m);

    private static OperatingHours Hours(decimal hours) =>
        OperatingHours.Parse(hours.ToString(CultureInfo.InvariantCulture) + " h").OrThrow();

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);
}
