using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

public sealed class BowedIntervalsTests
{
    /// <summary>
    /// Width 510 mm, stations 25, 255 and 485 mm; feelers true to 0.0001 in, 0.0007 passes and 0.0008 stops at both sides,
    /// 0.0017 passes and 0.0018 stops in the middle: [0.0006, 0.0009[ and [0.0016, 0.0019[ in. No line runs through all:
    /// the chord of the sides stays below 0.0009.
    /// <para>
    /// Left end by the line: weights 245/276, 1/3, -61/276, from 25.4·(245·0.0006/276 + 0.0016/3 - 61·0.0009/276) =
    /// 0.0220225362318… to 25.4·(245·0.0009/276 + 0.0019/3 - 61·0.0006/276) = 0.0330107971014… mm.
    /// </para>
    /// <para>
    /// By the parabola: weights 4947/4232, -485/2116, 255/4232 (Lagrange), from
    /// 25.4·(4947·0.0006 - 970·0.0019 + 255·0.0006)/4232 = 0.0076716162570… to
    /// 25.4·(4947·0.0009 - 970·0.0016 + 255·0.0009)/4232 = 0.0187847164461… mm.
    /// </para>
    /// </summary>
    [Fact]
    public void Ends_OfABowThatNoLineFits_AreKnownWithinLineAndParabola()
    {
        var fit = Fit(510m, 25m, Feelers(0.0007m), Feelers(0.0017m), Feelers(0.0007m));

        Assert.Equal(Open(0.007671616257m, 0.033010797101m), fit.LeftEnd);
        Assert.Equal(fit.LeftEnd, fit.RightEnd);
        Assert.Equal(Open(0.022022536232m, 0.033010797101m), fit.LineAt(Mm(0m)));
        Assert.Equal(fit.LineAt(Mm(0m)), fit.LineAt(Mm(510m)));
    }

    /// <summary>
    /// The same bow as above. The least range is that of the stations: 0.0016 - 0.0009 = 0.0007 in, 0.01778 mm. The
    /// greatest is of the middle above an end by the parabola: weights -4947/4232, 1 + 970/4232, -255/4232, so
    /// 25.4·(5202·0.0019 - 5202·0.0006)/4232 = 0.0405883… mm; by the line it would be 0.0279… mm.
    /// </summary>
    [Fact]
    public void Range_OfABowThatNoLineFits_ReachesToTheParabola()
    {
        var range = Assert.IsType<LengthInterval>(
            Fit(510m, 25m, Feelers(0.0007m), Feelers(0.0017m), Feelers(0.0007m)).Range
        );

        Assert.Equal(IntervalEnd.Open(Mm(0.01778m)), range.Lower);
        Assert.Equal(IntervalEnd.Open(Mm(0.040588383743m)), range.Upper);
    }

    /// <summary>
    /// Stations 50, 250, 450 of 500: the mean of the sides is at most 0.03. A middle from 0.03 just touches the line through
    /// their upper ends, where all three ends are possible: left end by the line alone, weights 23/24, 1/3, -7/24, so
    /// (23·0.02 + 8·0.03 - 7·0.03)/24 to (23·0.03 + 8·0.04 - 7·0.02)/24. With an end that is itself excluded, or a
    /// billionth of a millimetre higher, no line is left: the parabola's weights 45/32, -18/32, 5/32 reach down to
    /// (45·0.02 - 18·0.04 + 5·0.02)/32 = 0.00875.
    /// </summary>
    [Fact]
    public void Ends_WhereIntervalsJustTouchALine_AreTheLines()
    {
        var side = Closed(0.02m, 0.03m);

        Assert.Equal(
            Closed(0.49m / 24, 0.87m / 24),
            Fit(500m, 50m, side, Closed(0.03m, 0.04m), side).LeftEnd
        );
        Assert.Equal(
            Mm(0.00875m),
            Lower(Fit(500m, 50m, Interval(0.02m, 0.03m), Closed(0.03m, 0.04m), side).LeftEnd)
        );
        Assert.Equal(
            Mm(0.00875m),
            Lower(Fit(500m, 50m, side, Closed(0.03m, 0.04m), Interval(0.02m, 0.03m)).LeftEnd)
        );
        Assert.Equal(Mm(0.00875m), Lower(Fit(500m, 50m, side, Closed(0.030000001m, 0.04m), side).LeftEnd));
    }

    /// <summary>
    /// Hollow instead of crowned: a middle up to 0.02 touches the sides' lower ends, one that is below 0.02 does not. Then
    /// the parabola reaches up to (45·0.03 - 18·0.01 + 5·0.03)/32 = 0.04125, the line to (23·0.03 + 8·0.02 - 7·0.02)/24.
    /// </summary>
    [Fact]
    public void Ends_OfAHollow_ReachUpToTheParabola()
    {
        var side = Closed(0.02m, 0.03m);

        Assert.Equal(
            Closed(0.33m / 24, 0.71m / 24),
            Fit(500m, 50m, side, Closed(0.01m, 0.02m), side).LeftEnd
        );
        var hollow = Assert.IsType<LengthInterval>(
            Fit(500m, 50m, side, Interval(0.01m, 0.02m), side).LeftEnd
        );
        Assert.Equal(IntervalEnd.Closed(Mm(0.04125m)), hollow.Upper);
        Assert.Equal(Mm(0.01375m), Lower(hollow));
    }

    [Fact]
    public void Ends_OfABowMirrored_AreMirrored()
    {
        ImmutableArray<StationReading> readings =
        [
            new(Mm(40m), Feelers(0.0007m)),
            new(Mm(200m), Feelers(0.0019m)),
            new(Mm(470m), Feelers(0.0010m)),
        ];
        var fit = WidthFit.Through(readings, Mm(510m))!;
        var mirrored = WidthFit.Through(readings.Mirrored(510m), Mm(510m))!;

        Assert.NotEqual(fit.LineAt(Mm(0m)), fit.LeftEnd);
        Assert.NotEqual(fit.LeftEnd, fit.RightEnd);
        Assert.Equal((fit.LeftEnd, fit.RightEnd), (mirrored.RightEnd, mirrored.LeftEnd));
        Assert.Equal(fit.Range, mirrored.Range);
    }

    [Fact]
    public void Ends_WhereOneReadingHasNoBound_AreTheLinesAsLongAsOneFits()
    {
        var side = Closed(0.02m, 0.03m);
        var open = Fit(500m, 50m, side, LengthInterval.AtLeast(Mm(0.03m)), side);
        var bowed = Fit(500m, 50m, side, LengthInterval.AtLeast(Mm(0.04m)), side);

        Assert.Equal(Mm(0.020416666667m), Lower(open.LeftEnd));
        Assert.Equal(LengthInterval.Unbounded, bowed.LeftEnd);
    }

    /// <summary>
    /// Any three of four may rule the line out; here only the first, second and fourth do: with the third the chord at 100
    /// reaches (0.01 + 0.012)/2 = 0.011, with the fourth 0.01.
    /// </summary>
    [Fact]
    public void Ends_OfFourStations_TakeEveryThreeIntoAccount()
    {
        var third = Closed(0m, 0.012m);
        WidthFit Four(LengthInterval second) =>
            WidthFit.Through(
                [
                    new(Mm(0m), Closed(0m, 0.01m)),
                    new(Mm(100m), second),
                    new(Mm(200m), third),
                    new(Mm(400m), Closed(0m, 0.01m)),
                ],
                Mm(400m)
            )!;

        Assert.Equal(Four(Closed(0.01m, 0.02m)).LineAt(Mm(0m)), Four(Closed(0.01m, 0.02m)).LeftEnd);
        Assert.NotEqual(Four(Closed(0.011m, 0.02m)).LineAt(Mm(0m)), Four(Closed(0.011m, 0.02m)).LeftEnd);
    }

    /// <summary>
    /// Stations 0, 250, 500 of 1000: at the right end the parabola's weights are 3, -8, 6 (Lagrange), from
    /// 3·0.02 - 8·0.05 + 6·0.02 = -0.22, and the line's -7/6, 2/6, 11/6, up to (-7·0.02 + 2·0.05 + 11·0.03)/6.
    /// </summary>
    [Fact]
    public void RightEnd_OfABowReadOnTheLeft_ReachesFarDown()
    {
        var fit = WidthFit.Through(
            [
                new(Mm(0m), Closed(0.02m, 0.03m)),
                new(Mm(250m), Closed(0.04m, 0.05m)),
                new(Mm(500m), Closed(0.02m, 0.03m)),
            ],
            Mm(1000m)
        )!;

        Assert.Equal(Closed(-0.22m, 0.29m / 6), fit.RightEnd);
    }

    /// <summary>Two readings of one place rule every line out when they exclude one another, and none when they meet.</summary>
    [Fact]
    public void At_AStationReadTwice_IsTheLinesWhereTheReadingsMeet()
    {
        var anywhere = Open(0m, 0.1m);
        WidthFit Twice(LengthInterval again) =>
            WidthFit.Through(
                [
                    new(Mm(0m), Closed(0m, 0.01m)),
                    new(Mm(0m), again),
                    new(Mm(250m), anywhere),
                    new(Mm(500m), anywhere),
                ],
                Mm(500m)
            )!;

        var (meets, excludes) = (Twice(Closed(0.01m, 0.02m)), Twice(Closed(0.011m, 0.02m)));
        Assert.Equal(meets.LineAt(Mm(250m)), meets.At(Mm(250m)));
        Assert.NotEqual(excludes.LineAt(Mm(250m)), excludes.At(Mm(250m)));
    }

    private static WidthFit Fit(
        decimal width,
        decimal inboard,
        LengthInterval left,
        LengthInterval middle,
        LengthInterval right
    ) =>
        WidthFit.Through(
            [new(Mm(inboard), left), new(Mm(width / 2), middle), new(Mm(width - inboard), right)],
            Mm(width)
        )!;

    /// <summary>Inch feelers a ten-thousandth apart, each true to a ten-thousandth.</summary>
    private static LengthInterval Feelers(decimal passes) =>
        Interval((passes - 0.0001m) * 25.4m, (passes + 0.0002m) * 25.4m);

    private static LengthInterval Interval(decimal from, decimal below) =>
        Between(IntervalEnd.Closed(Mm(from)), IntervalEnd.Open(Mm(below)));

    private static LengthInterval Open(decimal above, decimal below) =>
        Between(IntervalEnd.Open(Mm(above)), IntervalEnd.Open(Mm(below)));

    private static LengthInterval Between(IntervalEnd from, IntervalEnd to)
    {
        Assert.True(LengthInterval.TryCreate(from, to, out var interval));
        return interval;
    }

    private static LengthInterval Closed(decimal from, decimal to) =>
        LengthInterval.Between(Mm(Math.Round(from, 12)), Mm(Math.Round(to, 12)));

    private static Length? Lower(Knowledge knowledge) =>
        Assert.IsType<LengthInterval>(knowledge).Lower?.Value;
}
