using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>How scatter about the line or the parabola widens what rests on it.</summary>
public sealed class WidthFitScatterTests
{
    /// <summary>
    /// Readings off the line by (1, -1, -1, 1)·0.01 with u = 0.005: Σ = 16 over two degrees of freedom, √8. The line at the
    /// left of four evenly spread stations has weights 0.7, 0.4, 0.1, -0.2: 0.005·√0.7·√8 = 0.0118322.
    /// </summary>
    [Fact]
    public void LeftEnd_OfFourReadings_HasTwoDegreesOfFreedomLeft()
    {
        var fit = WidthFit.Through(
            [
                Measured(0m, 0.01m, 0.005m),
                Measured(300m, -0.01m, 0.005m),
                Measured(600m, -0.01m, 0.005m),
                Measured(900m, 0.01m, 0.005m),
            ],
            Mm(900m)
        )!;

        Assert.Equal((0m, 0.0118322m), (fit.LeftEnd.Value(), fit.LeftEnd.U()));
    }

    /// <summary>
    /// Stations 0, 50, 100 of 500: the line through 0, 0.04, 0.02 rises by 0.01 a station, residuals (-1, 2, -1)·0.01, with
    /// u = 0.005 a ratio of √24. Its right end, weights (-25, 2, 29)/6, less the first reading: 0.11 with
    /// 0.005·√(31² + 2² + 29²)/6·√24 = 0.1734935…, rounded up.
    /// </summary>
    [Fact]
    public void Range_FromAReadingToTheLinesEnd_IsOnlyAsGoodAsTheLine()
    {
        var range = WidthFit
            .Through(
                [Measured(0m, 0m, 0.005m), Measured(50m, 0.04m, 0.005m), Measured(100m, 0.02m, 0.005m)],
                Mm(500m)
            )!
            .Range;

        Assert.Equal(0.11m, range.Value());
        Assert.Equal(0.1734936m, range.U());
    }

    /// <summary>The same from an end below to a reading above: all heights mirrored.</summary>
    [Fact]
    public void Range_FromTheLinesEndToAReading_IsOnlyAsGoodAsTheLine()
    {
        var range = WidthFit
            .Through(
                [Measured(0m, 0m, 0.005m), Measured(50m, -0.04m, 0.005m), Measured(100m, -0.02m, 0.005m)],
                Mm(500m)
            )!
            .Range;

        Assert.Equal((0.11m, 0.1734936m), (range.Value(), range.U()));
    }

    /// <summary>
    /// Off a bowed parabola by (1, -3, 3, -1)·d/√20, d = 0.04 and u = 0.01: its ratio is 4, whatever the bow itself. With
    /// t = (x - 450)/900 the stations stand at -1/2, -1/6, 1/6, 1/2: 0.36·t² is 0.09, 0.01, 0.01, 0.09, bow -0.09.
    /// </summary>
    [Fact]
    public void Bow_OfFourReadingsOffABow_IsWidenedByWhatTheParabolaLeaves()
    {
        const decimal unit = 0.04m / 4.4721359549995793928m;
        WidthFit Fit(decimal off) =>
            WidthFit.Through(
                [
                    Measured(0m, 0.09m + off, 0.01m),
                    Measured(300m, 0.01m - (3 * off), 0.01m),
                    Measured(600m, 0.01m + (3 * off), 0.01m),
                    Measured(900m, 0.09m - off, 0.01m),
                ],
                Mm(900m)
            )!;

        Near(-0.09m, Fit(unit).Bow.Value());
        Near(4m * Fit(0m).Bow.U(), Fit(unit).Bow.U(), 0.0000005m);
    }

    /// <summary>
    /// Where one reading is exactly known no ratio can be told: weights 5/6, 1/3, -1/6 at the left end, the middle one of
    /// nothing, 0.01·√26/6 = 0.0084984.
    /// </summary>
    [Fact]
    public void LeftEnd_WithOneReadingExactlyKnown_IsNotWidened()
    {
        var fit = WidthFit.Through(
            [Measured(0m, 0m, 0.01m), Measured(250m, 0.03m), Measured(500m, 0m, 0.01m)],
            Mm(500m)
        )!;

        Assert.Equal((0.01m, 0.0084984m), (fit.LeftEnd.Value(), fit.LeftEnd.U()));
    }

    /// <summary>The first example as if its readings lay on the line: the gauge alone, 0.005·√0.7, rounded up.</summary>
    [Fact]
    public void AsIfEven_OfReadingsThatScatter_LeavesTheGaugesDoubtAlone()
    {
        var fit = WidthFit.Through(
            [
                Measured(0m, 0.01m, 0.005m),
                Measured(300m, -0.01m, 0.005m),
                Measured(600m, -0.01m, 0.005m),
                Measured(900m, 0.01m, 0.005m),
            ],
            Mm(900m)
        )!;

        Assert.True(fit.IsUneven);
        Assert.False(fit.AsIfEven().IsUneven);
        Assert.Equal(
            (0m, 0.0041834m),
            (fit.AsIfEven().LineAt(Mm(0m)).Value(), fit.AsIfEven().LineAt(Mm(0m)).U())
        );
        // 0 at the ends by the line, 0.01125 by the parabola through ±0.01: it rises to the ends and says so.
        Assert.Equal(0.01m, fit.ParabolaAt(Mm(0m)).Value());
    }

    [Fact]
    public void IsUneven_OfReadingsOnTheirLine_IsNot()
    {
        var fit = WidthFit.Through([Measured(0m, 0.01m, 0.005m), Measured(900m, 0.02m, 0.005m)], Mm(900m))!;

        Assert.False(fit.IsUneven);
        Assert.Equal(fit.LineAt(Mm(0m)), fit.ParabolaAt(Mm(0m)));
    }

    /// <summary>
    /// 0.010, 0.053, 0.010 at 51, 255, 459 of 510 with u = 0.002: the middle above the sides by 0.043, with 0.002·√2 and no
    /// misfit; above the line's ends by 0.053 - 0.073/3, which the line's misfit widens: residuals (-1, 2, -1)·0.043/3, their
    /// ratio 0.043·√(2/3)/0.002, weights of the middle less the end (-23, 16, 7)/24.
    /// </summary>
    [Fact]
    public void Differences_OfABowedLine_HaveEachItsOwnUncertainty()
    {
        var fit = WidthFit.Through(
            [Measured(51m, 0.010m, 0.002m), Measured(255m, 0.053m, 0.002m), Measured(459m, 0.010m, 0.002m)],
            Mm(510m)
        )!;

        var read = fit.Differences[0];
        var toEnd = fit.Differences.Single(pair => pair.Above == Mm(255m) && pair.Below == Mm(0m));
        // 0.043·√(2/3)·√(23² + 16² + 7²)/24
        var expected = 0.043 * Math.Sqrt(2.0 / 3) * Math.Sqrt((23 * 23) + (16 * 16) + (7 * 7)) / 24;

        Assert.Equal((0.043m, 0.0028285m), (read.By.Value.Millimetres, read.By.U()));
        Assert.Equal(0.0286667m, Math.Round(toEnd.By.Value.Millimetres, 7));
        Assert.Equal(expected, (double)toEnd.By.U(), 6);
    }

    /// <summary>
    /// The parabola through 0.030, 0.090, 0.030 at 25, 255, 485 of 510 falls by 0.06·(255/230)² to its ends, and by a third of it
    /// in the mean: 0.090 - 0.06·(255/230)²/3 = 0.0654159. The line's mean would be 0.050.
    /// </summary>
    [Fact]
    public void Mean_OfABow_IsTheParabolas()
    {
        var fit = WidthFit.Through(
            [Measured(25m, 0.030m, 0.002m), Measured(255m, 0.090m, 0.002m), Measured(485m, 0.030m, 0.002m)],
            Mm(510m)
        )!;

        Assert.Equal(0.0654159m, Math.Round(fit.Mean.Value(), 7));
    }

    /// <summary>Three readings of a parabola that lies askew: x²/1000 at 0, 100, 400 of 400 has the mean 160/3 over 0 to 400.</summary>
    [Fact]
    public void Mean_OfAnyThreeStations_IsTheIntegralOverTheWidth()
    {
        var fit = WidthFit.Through(
            [Measured(0m, 0m, 0.002m), Measured(100m, 10m, 0.002m), Measured(400m, 160m, 0.002m)],
            Mm(400m)
        )!;

        Assert.Equal(53.3333333m, Math.Round(fit.Mean.Value(), 7));
    }

    /// <summary>
    /// The left end of 51 and 459 of 510 is 1.125 of the left less 0.125 of the right. With the right from 1 to 3 it keeps 5 to 7
    /// where the left lies from (5 + 0.375)/1.125 to (7 + 0.125)/1.125.
    /// </summary>
    [Fact]
    public void RoomOf_TheOuterReading_IsWhatItsEndAsksFor()
    {
        var fit = WidthFit.Through([Interval(51m, 0m, 9m), Interval(459m, 1m, 3m)], Mm(510m))!;

        var room = fit.RoomOf(0, Mm(0m), Mm(5m), Mm(7m))!;

        Assert.Equal(4.7777778m, Math.Round(room.Least!.Value.Millimetres, 7));
        Assert.Equal(6.3333333m, Math.Round(room.Greatest!.Value.Millimetres, 7));
    }

    /// <summary>
    /// The left end falls by 0.125 as the right reading rises by 1: with the left from 5 to 6 it keeps 5 to 7 where the right lies
    /// from (1.125·6 - 7)/0.125 = -2 to (1.125·5 - 5)/0.125 = 5. An open end leaves no room to tell, a station of its own all.
    /// </summary>
    [Fact]
    public void RoomOf_TheOtherReading_RunsTheOtherWay()
    {
        var fit = WidthFit.Through([Interval(51m, 5m, 6m), Interval(459m, 0m, 9m)], Mm(510m))!;
        var open = WidthFit.Through(
            [
                new StationReading(Mm(51m), LengthInterval.AtLeast(Mm(5m))),
                new StationReading(Mm(459m), LengthInterval.AtLeast(Mm(0m))),
            ],
            Mm(510m)
        )!;

        var room = fit.RoomOf(1, Mm(0m), Mm(5m), Mm(7m))!;

        Assert.Equal((Mm(-2m), Mm(5m)), (room.Least!.Value, room.Greatest!.Value));
        Assert.Null(open.RoomOf(1, Mm(0m), Mm(5m), Mm(7m)));
        Assert.Null(open.RoomOf(1, Mm(0m), null, Mm(7m)));
        Assert.Equal(new(null, null), fit.RoomOf(1, Mm(51m), Mm(5m), Mm(7m)));
        var bent = WidthFit.Through(
            [Interval(0m, 0m, 1m), Interval(250m, 5m, 6m), Interval(500m, 0m, 1m)],
            Mm(500m)
        )!;
        Assert.Null(bent.RoomOf(0, Mm(0m), Mm(0m), Mm(7m)));
    }

    // 0.010 and 0.030 at 51 and 459 of 510: the ends 0.0075 below and 0.0325, so 0.025 apart, and a station as read.
    [Fact]
    public void Difference_OfTwoPlaces_IsThatOfThePlacesNamed()
    {
        var fit = WidthFit.Through(
            [Measured(51m, 0.010m, 0.002m), Measured(459m, 0.030m, 0.002m)],
            Mm(510m)
        )!;

        Assert.Equal(0.020m, fit.Difference(Mm(459m), Mm(51m))!.Value.Millimetres);
        Near(0.025m, fit.Difference(Mm(510m), Mm(0m))!.Value.Millimetres);
        Assert.Null(fit.Difference(Mm(100m), Mm(51m)));
        Assert.Null(fit.Difference(Mm(51m), Mm(100m)));
        Assert.Empty(fit.DifferencesByParabola);
        Assert.Empty(
            WidthFit.Through([Interval(51m, 0m, 9m), Interval(459m, 1m, 3m)], Mm(510m))!.Differences
        );
    }

    // One reading known worse than all scatter (0.01306) and two known better: still uneven.
    [Fact]
    public void IsUneven_WhereSomeReadingsAreKnownBetterThanAllScatter_Is() =>
        Assert.True(
            WidthFit
                .Through(
                    [
                        Measured(51m, 0.010m, 0.002m),
                        Measured(255m, 0.026m, 0.05m),
                        Measured(459m, 0.010m, 0.002m),
                    ],
                    Mm(510m)
                )!
                .IsUneven
        );

    /// <summary>
    /// 3.709, 3.752, 3.749 at 51, 255, 459 of 510: off the line by (-1, 2, -1)·0.023/3, so s = 0.023·√(2/3) = 0.0187794. The left
    /// end weighs 23/24, 1/3, -7/24. With the middle known to 0.002 all three count as s: 0.0187794·√(23² + 8² + 7²)/24 =
    /// 0.0198262; known to 0.03 it counts so: √(0.0187794²·(23² + 7²) + 0.03²·8²)/24 = 0.0213048.
    /// </summary>
    [Theory]
    [InlineData(0.002, 0.0198262)]
    [InlineData(0.03, 0.0213048)]
    public void LeftEnd_WithOneReadingKnownWorse_IsNoBetterKnown(double middle, double expected)
    {
        var fit = WidthFit.Through(
            [
                Measured(51m, 3.709m, 0.002m),
                Measured(255m, 3.752m, (decimal)middle),
                Measured(459m, 3.749m, 0.002m),
            ],
            Mm(510m)
        )!;

        Assert.Equal(expected, (double)fit.LeftEnd.U(), 6);
    }

    /// <summary>
    /// Any error of any reading grown - what its gauge shows, how it repeats, its certificate - never leaves an end, the tilt, the
    /// bow, the middle, the mean or any difference less uncertain, however the readings scatter.
    /// </summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Through_ReadingsOfWhichOneIsKnownWorse_NeverGetsLessExpanded(
        (byte At, short Off, byte Step, byte Repeats, byte Known, byte Certificate, bool Other)[] read,
        byte which,
        byte what,
        byte more
    )
    {
        var taken = read.DistinctBy(each => each.At).Take(6).ToImmutableArray();
        if (taken.Length < 2)
        {
            return;
        }

        var one = which % taken.Length;
        var less = Fit(i => (0, 0, 0));
        var worse = Fit(i =>
            what % 3 == 2 ? (0, 0, more)
            : i != one ? (0, 0, 0)
            : what % 3 == 1 ? (0, more, 0)
            : (more, 0, 0)
        );
        if (less is null || worse is null)
        {
            return;
        }

        // Readings known to 1 mm each that share nothing: U of a value is twice the root of the squares of its weights.
        var unit = WidthFit.Through(
            [.. less.Readings.Select(r => Measured(r.Station.Millimetres, 4m, 1m))],
            Mm(255m)
        )!;
        var most = worse.Readings.Max(r => ((MeasuredValue)r.Knowledge).Uncertainty.Value.Millimetres);
        foreach (
            var (before, after, weights) in Values(less)
                .Zip(Values(worse), Values(unit))
                .Concat(less.Readings.SelectMany(r => Differences(less, worse, unit, r.Station)))
        )
        {
            // Each is rounded up to 1e-7 by itself. So are u of a reading and the part s of it that is shared: where nearly all is,
            // what is left of it, the root of u² - s², moves by more than that, and far beyond the stations a value by more still.
            var (was, now, norm) = (U(before).Millimetres, U(after).Millimetres, U(weights).Millimetres);
            Assert.True(
                was <= now + 0.0000002m || was * was <= (now * now) + (norm * norm * 0.0000004m * most),
                $"{U(before)} fell to {U(after)}"
            );
        }

        WidthFit? Fit(Func<int, (int Step, int Repeats, int Certificate)> grown) =>
            WidthFit.Through([.. taken.Select((each, i) => Reading(each, grown(i)))], Mm(255m));

        StationReading Reading(
            (byte At, short Off, byte Step, byte Repeats, byte Known, byte Certificate, bool Other) each,
            (int Step, int Repeats, int Certificate) grown
        )
        {
            var gauge = each.Other ? taken.Last(r => r.Other) : taken.Last(r => !r.Other);
            var own = UncertaintyBudget.Of(
                UncertaintyContribution.Resolution(Mm((1 + each.Step + grown.Step) * 0.0005m)),
                UncertaintyContribution.Repeatability(
                    Mm((each.Repeats + 1 + grown.Repeats) * 0.0001m),
                    gauge.Known == 0 ? DegreesOfFreedom.Infinite : DegreesOfFreedom.Of(gauge.Known),
                    1
                )
            );
            var shared = UncertaintyBudget.Of(
                UncertaintyContribution.Calibration(
                    Mm((gauge.Certificate + 1 + grown.Certificate) * 0.0002m),
                    2m
                )
            );
            return new(
                Mm(each.At),
                UncertaintyBudget
                    .Of([.. own.Contributions, .. shared.Contributions])
                    .Around(Mm(4m + (each.Off * 0.00001m)))
            )
            {
                Shared = shared.SharedBy(each.Other ? "other" : "one").WithRest(own),
            };
        }
    }

    private static IEnumerable<Knowledge> Values(WidthFit fit) =>
        new[] { fit.LeftEnd, fit.RightEnd, fit.Offset, fit.Tilt, fit.Mean, fit.Bow }.OfType<Knowledge>();

    private static IEnumerable<(Knowledge, Knowledge, Knowledge)> Differences(
        WidthFit less,
        WidthFit worse,
        WidthFit unit,
        Length station
    ) =>
        from end in new[] { Mm(0m), Mm(255m) }
        where !less.IsRead(end)
        select (
            (Knowledge)less.Difference(station, end)!,
            (Knowledge)worse.Difference(station, end)!,
            (Knowledge)unit.Difference(station, end)!
        );

    private static Length U(Knowledge known) => ((MeasuredValue)known).Expanded.Value;
}
