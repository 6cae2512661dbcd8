using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

public sealed class WidthFitTests
{
    private const decimal Width = 559m;

    /// <summary>Outside values: turf/formulas.json, F14 (printed to four decimals).</summary>
    [Fact]
    public void Ends_OfTwoStations_AgreeWithTheWorkedExample()
    {
        var example = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F14")
            .GetProperty("worked_example");
        var given = example.GetProperty("inputs");
        var printed = example.GetProperty("result");
        var fit = WidthFit.Through(
            [
                Measured(Exact(given.GetProperty("x1"))!.Value, Exact(given.GetProperty("g1"))!.Value),
                Measured(Exact(given.GetProperty("x2"))!.Value, Exact(given.GetProperty("g2"))!.Value),
            ],
            Millimetres(given.GetProperty("L"))!.Value
        )!;

        Assert.Equal(Exact(printed.GetProperty("g_left_end_mm")), Math.Round(fit.LeftEnd.Value(), 4));
        Assert.Equal(Exact(printed.GetProperty("g_right_end_mm")), Math.Round(fit.RightEnd.Value(), 4));
        Assert.Equal(Exact(printed.GetProperty("end_difference_mm")), Math.Round(fit.Tilt.Value(), 4));
    }

    /// <summary>Outside values: turf/formulas.json, F19: the same for heights.</summary>
    [Fact]
    public void Ends_OfHeights_AgreeWithTheWorkedExample()
    {
        var fit = WidthFit.Through([Measured(60m, 3.2m), Measured(499m, 3.3m)], Mm(Width))!;

        Assert.Equal(3.186m, Math.Round(fit.LeftEnd.Value(), 3));
        Assert.Equal(3.314m, Math.Round(fit.RightEnd.Value(), 3));
        Assert.Equal(0.127m, Math.Round(fit.Tilt.Value(), 3));
    }

    /// <summary>Outside values: turf/formulas.json, F15: u = 0.010, factors 1.0503 and 1.4142·1.0982.</summary>
    [Fact]
    public void Ends_OfTwoStations_CarryTheUncertaintyOfTheWorkedExample()
    {
        var fit = WidthFit.Through([Measured(25m, 0.03m, 0.01m), Measured(534m, 0.06m, 0.01m)], Mm(Width))!;

        Assert.InRange(fit.LeftEnd.U(), 0.010502m, 0.010504m);
        Assert.InRange(fit.RightEnd.U(), 0.010502m, 0.010504m);
        Assert.InRange(fit.Tilt.U(), 0.015530m, 0.015532m);
        Assert.Equal(fit.Tilt, fit.Range);
    }

    [Fact]
    public void Offset_OfTwoSymmetricStations_IsTheirMeanWithHalfTheVariance()
    {
        var fit = WidthFit.Through([Measured(59m, 0.03m, 0.01m), Measured(500m, 0.05m, 0.01m)], Mm(Width))!;

        Assert.Equal(0.04m, fit.Offset.Value());
        Assert.Equal(0.0070711m, fit.Offset.U());
    }

    [Fact]
    public void Through_SharedUncertainty_StaysInValuesAndLeavesTilt()
    {
        // Own part of each reading: √(0.01² - 0.008²) = 0.006; mean: √(0.006²/2 + 0.008²) = 0.00905539.
        ImmutableArray<StationReading> readings = [Measured(59m, 0.03m, 0.01m), Measured(500m, 0.05m, 0.01m)];
        var fit = WidthFit.Through(readings, Mm(Width), StandardUncertainty.From(Mm(0.008m)))!;

        Assert.Equal(0.0090554m, fit.Offset.U());
        // 0.006·√2·559/441 = 0.01075572
        Assert.Equal(0.0107558m, fit.Tilt.U());
    }

    [Fact]
    public void Bow_OfAParabola_IsItsSagitta()
    {
        // g(x) = 0.020 + 0.0001·x - 4e-7·x² over 500: ends 0.020 and -0.030, middle 0.020, mean of ends -0.005.
        decimal[] stations = [50m, 125m, 300m, 450m];
        ImmutableArray<StationReading> readings =
        [
            .. stations.Select(x => Measured(x, 0.020m + (0.0001m * x) - (0.0000004m * x * x), 0.001m)),
        ];

        var fit = WidthFit.Through(readings, Mm(500m))!;

        Assert.Equal(0.025m, fit.Bow.Value());
    }

    [Fact]
    public void Bow_OfThreeStationsAtEndsAndMiddle_HasItsTextbookUncertainty()
    {
        // b = g2 - (g1 + g3)/2, u(b) = u·√1.5 = 0.0122474…
        var fit = WidthFit.Through(
            [Measured(0m, 0.02m, 0.01m), Measured(250m, 0.05m, 0.01m), Measured(500m, 0.04m, 0.01m)],
            Mm(500m)
        )!;

        Assert.Equal(0.02m, fit.Bow.Value());
        Assert.Equal(0.0122475m, fit.Bow.U());
    }

    [Fact]
    public void Bow_OfTwoStations_IsUnknown() =>
        Assert.Null(WidthFit.Through([Measured(50m, 0.02m), Measured(450m, 0.03m)], Mm(500m))!.Bow);

    /// <summary>A bow is no tilt: it neither biases the tilt nor makes it less certain.</summary>
    [Fact]
    public void Tilt_OfAParabola_IsItsOwnWhereverTheStationsLie()
    {
        // g = 5 + 0.2 t + 0.4 t², t from -1/2 to 1/2 over 1000 mm.
        StationReading At(decimal x)
        {
            var t = (x - 500m) / 1000m;
            return Measured(x, 5m + (0.2m * t) + (0.4m * t * t), 0.01m);
        }

        Near(0.2m, WidthFit.Through([At(100m), At(500m), At(900m)], Mm(1000m))!.Tilt.Value());
        Near(0.2m, WidthFit.Through([At(0m), At(300m), At(1000m)], Mm(1000m))!.Tilt.Value());
        Near(0.2m, WidthFit.Through([At(50m), At(200m), At(600m), At(950m)], Mm(1000m))!.Tilt.Value());
    }

    [Fact]
    public void Tilt_WithTheMiddleReadToo_IsNoLessCertain()
    {
        var two = WidthFit.Through([Measured(0m, 1m, 0.01m), Measured(500m, 1.1m, 0.01m)], Mm(500m))!;
        var three = WidthFit.Through(
            [Measured(0m, 1m, 0.01m), Measured(250m, 1.3m, 0.01m), Measured(500m, 1.1m, 0.01m)],
            Mm(500m)
        )!;

        Assert.Equal(two.Tilt, three.Tilt);
    }

    /// <summary>
    /// At 0, 100 and 1000 mm the parabola's tilt is g(1000) - g(0) exactly, whatever the middle, with √2·u. Near one end a
    /// third station, 0, 10 and 20 mm of 1000, leaves it to the line: (g₃ - g₁)·1000/20, u·√2·50.
    /// </summary>
    [Fact]
    public void Tilt_WhereTheParabolaWouldRunAway_IsTheLines()
    {
        var far = WidthFit.Through(
            [Measured(0m, 1m, 0.01m), Measured(100m, 3m, 0.01m), Measured(1000m, 2m, 0.01m)],
            Mm(1000m)
        )!;
        var near = WidthFit.Through(
            [Measured(0m, 1m, 0.01m), Measured(10m, 1.01m, 0.01m), Measured(20m, 1.02m, 0.01m)],
            Mm(1000m)
        )!;

        Near(1m, far.Tilt.Value());
        Assert.InRange(far.Tilt.U(), 0.0141421m, 0.0141423m);
        Near(1m, near.Tilt.Value());
        Assert.InRange(near.Tilt.U(), 0.7071m, 0.7072m);
    }

    /// <summary>
    /// Four readings off a parabola by (1, -3, 3, -1)·d/√20, which is square to every parabola: with one degree of freedom the
    /// Birge ratio is d/u. Here d = 0.04, u = 0.01: uncertainties of tilt and bow are four times as large.
    /// </summary>
    [Fact]
    public void Bow_OfFourReadingsOffTheParabola_IsWidenedByTheBirgeRatio()
    {
        WidthFit Fit(decimal d)
        {
            var unit = d / 4.4721359549995793928m;
            return WidthFit.Through(
                [
                    Measured(0m, 5m + unit, 0.01m),
                    Measured(300m, 5m - (3 * unit), 0.01m),
                    Measured(600m, 5m + (3 * unit), 0.01m),
                    Measured(900m, 5m - unit, 0.01m),
                ],
                Mm(900m)
            )!;
        }

        Near(4m * Fit(0m).Bow.U(), Fit(0.04m).Bow.U(), 0.0000005m);
        Near(4m * Fit(0m).Tilt.U(), Fit(0.04m).Tilt.U(), 0.0000005m);
        Near(0m, Fit(0.04m).Bow.Value());
    }

    [Fact]
    public void At_BowedReadings_WidensTheEndsByTheBirgeRatio()
    {
        // Residuals of 0, 0.03, 0 about the mean line: -0.01, 0.02, -0.01. With u = 0.005: √(4+16+4) = 4.899.
        // The line at an end has u·√(1/3 + 1/2) = 0.00456435; times 4.898979 it is 0.0223607.
        var fit = WidthFit.Through(
            [Measured(0m, 0m, 0.005m), Measured(250m, 0.03m, 0.005m), Measured(500m, 0m, 0.005m)],
            Mm(500m)
        )!;

        Assert.Equal(0.01m, fit.LeftEnd.Value());
        Assert.Equal(0.0223607m, fit.LeftEnd.U());
        // A station itself needs no line: the range between two readings keeps u·√2.
        Assert.Equal(0.03m, fit.Range.Value());
        Assert.Equal(0.0070711m, fit.Range.U());
    }

    [Fact]
    public void Ends_OfIntervals_AreTheHullOfAllLinesTheyAdmit()
    {
        // Stations 100 and 400 of 500: left end = 4/3·g1 - 1/3·g2, right end = -1/3·g1 + 4/3·g2.
        var fit = WidthFit.Through([Interval(100m, 0.03m, 0.06m), Interval(400m, 0.06m, 0.09m)], Mm(500m))!;

        Assert.Equal(LengthInterval.Between(Mm(0.01m), Mm(0.06m)), fit.LeftEnd);
        Assert.Equal(LengthInterval.Between(Mm(0.06m), Mm(0.11m)), fit.RightEnd);
        Assert.Equal(LengthInterval.Between(Mm(0m), Mm(0.1m)), fit.Range);
    }

    [Fact]
    public void Ends_OfOneUnboundedInterval_AreUnboundedOnTheSideItPulls()
    {
        var fit = WidthFit.Through(
            [new(Mm(100m), LengthInterval.AtLeast(Mm(0.03m))), Interval(400m, 0.06m, 0.09m)],
            Mm(500m)
        )!;

        var left = Assert.IsType<LengthInterval>(fit.LeftEnd);
        Assert.Equal((IntervalEnd.Closed(Mm(0.01m)), null), (left.Lower, left.Upper));
        var right = Assert.IsType<LengthInterval>(fit.RightEnd);
        Assert.Equal((null, IntervalEnd.Closed(Mm(0.11m))), (right.Lower, right.Upper));
    }

    [Fact]
    public void At_MixedKnowledge_TakesMeasuredValuesAsTheirExpandedInterval()
    {
        var fit = WidthFit.Through(
            [Measured(100m, 0.045m, 0.0075m), Interval(400m, 0.06m, 0.09m)],
            Mm(500m)
        )!;

        Assert.Equal(LengthInterval.Between(Mm(0.01m), Mm(0.06m)), fit.LeftEnd);
    }

    [Theory]
    [InlineData(100, 100, 500)]
    [InlineData(100, 100.1, 500)]
    [InlineData(100, 1001, 500)]
    [InlineData(0.1, 0.4, 0.5)]
    public void Through_WithoutAUsableBase_DrawsNoLine(decimal first, decimal second, decimal width) =>
        Assert.Null(WidthFit.Through([Measured(first, 1m), Measured(second, 2m)], Mm(width)));

    [Property(MaxTest = PropertyCases.Each)]
    public void At_AStationOfTwo_ReducesToItsReading(
        ushort first,
        ushort gap,
        short left,
        short right,
        byte u
    )
    {
        var x1 = first % 300;
        var x2 = x1 + 1 + (gap % 250);
        ImmutableArray<StationReading> readings =
        [
            Measured(x1, left * 0.0001m, (u + 1) * 0.0001m),
            Measured(x2, right * 0.0127m, (u + 2) * 0.0001m),
        ];
        var fit = WidthFit.Through(readings, Mm(Width))!;

        Assert.Equal(readings[0].Knowledge, fit.At(Mm(x1)));
        Assert.Equal(readings[1].Knowledge, fit.At(Mm(x2)));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Through_MirroredReadings_MirrorsTheAnswer(short[] values, bool intervals)
    {
        if (values.Length < 2)
        {
            return;
        }

        var readings = Spread(values, intervals);
        var fit = WidthFit.Through(readings, Mm(Width))!;
        var mirrored = WidthFit.Through(readings.Mirrored(Width), Mm(Width))!;

        Assert.Equal(fit.LeftEnd, mirrored.RightEnd);
        Assert.Equal(fit.RightEnd, mirrored.LeftEnd);
        Assert.Equal(fit.Offset, mirrored.Offset);
        Assert.Equal(fit.Range, mirrored.Range);
        Assert.Equal(fit.Bow, mirrored.Bow);
        if (!intervals)
        {
            Assert.Equal(fit.Tilt.Value(), -mirrored.Tilt.Value());
        }
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Through_AllReadingsShifted_ShiftsOffsetOnly(short[] values, short by, bool intervals)
    {
        if (values.Length < 2)
        {
            return;
        }

        var shift = Mm(by * 0.0127m);
        var readings = Spread(values, intervals);
        var fit = WidthFit.Through(readings, Mm(Width))!;
        var shifted = WidthFit.Through(
            [.. readings.Select(r => r with { Knowledge = r.Knowledge.ShiftedBy(shift, Mm(0m)) })],
            Mm(Width)
        )!;

        Assert.Equal(fit.Offset.ShiftedBy(shift, Mm(0m)), shifted.Offset);
        Assert.Equal(fit.Tilt, shifted.Tilt);
        Assert.Equal(fit.Bow, shifted.Bow);
        Assert.Equal(fit.Range, shifted.Range);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Through_AnyOrderOfReadings_GivesTheSameAnswer(short[] values, int seed)
    {
        if (values.Length < 2)
        {
            return;
        }

        var readings = Spread(values, intervals: false);
        var shuffled = readings.ToArray();
        new Random(seed).Shuffle(shuffled);
        var fit = WidthFit.Through(readings, Mm(Width))!;
        var again = WidthFit.Through([.. shuffled], Mm(Width))!;

        Assert.Equal(
            (fit.LeftEnd, fit.Tilt, fit.Bow, fit.Range),
            (again.LeftEnd, again.Tilt, again.Bow, again.Range)
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void At_Intervals_HoldsEveryLineThroughTheirCorners(byte a, byte b, byte c, byte d, short at)
    {
        var (low1, high1) = (Math.Min(a, b) * 0.001m, Math.Max(a, b) * 0.001m);
        var (low2, high2) = (Math.Min(c, d) * 0.001m, Math.Max(c, d) * 0.001m);
        var station = Mm(Math.Abs(at % 500));
        var hull = Assert.IsType<LengthInterval>(
            WidthFit
                .Through([Interval(125m, low1, high1), Interval(375m, low2, high2)], Mm(500m))!
                .At(station)
        );

        decimal[] corners =
        [
            .. from g1 in new[] { low1, high1 }
            from g2 in new[] { low2, high2 }
            select WidthFit.Through([Measured(125m, g1), Measured(375m, g2)], Mm(500m))!.At(station).Value(),
        ];
        Assert.Equal(
            (corners.Min(), corners.Max()),
            (hull.Lower!.Value.Value.Millimetres, hull.Upper!.Value.Value.Millimetres)
        );
    }

    private static ImmutableArray<StationReading> Spread(short[] values, bool intervals) =>
        [
            .. values
                .Take(8)
                .Select(
                    (v, i) =>
                        intervals
                            ? Interval(
                                Station(i, Math.Min(8, values.Length)),
                                v * 0.001m,
                                (v * 0.001m) + (i * 0.01m)
                            )
                            : Measured(
                                Station(i, Math.Min(8, values.Length)),
                                v * 0.001m,
                                0.003m + (i * 0.001m)
                            )
                ),
        ];

    private static decimal Station(int index, int count) => 20m + Math.Floor(500m * index / count);
}
