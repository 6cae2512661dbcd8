using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>How far one place lies above another, and whether the readings lie on their line at all.</summary>
public sealed class WidthFitDifferencesTests
{
    /// <summary>
    /// 0.010, 0.053, 0.010 at 51, 255, 459 of 510: the parabola falls by 0.043·(255/204)² to each end, to -0.0141875, so the
    /// middle lies 0.0671875 above it; by the line it would be 0.0286667.
    /// </summary>
    [Fact]
    public void DifferencesByParabola_OfABow_ReachDownToItsEnds()
    {
        var fit = WidthFit.Through(
            [Measured(51m, 0.010m, 0.002m), Measured(255m, 0.053m, 0.002m), Measured(459m, 0.010m, 0.002m)],
            Mm(510m)
        )!;

        var largest = fit.DifferencesByParabola[0];

        Assert.Equal(0.0671875m, Math.Round(largest.By.Value.Millimetres, 7));
        Assert.Equal(Mm(255m), largest.Above);
        Assert.Contains(largest.Below, new[] { Mm(0m), Mm(510m) });
    }

    /// <summary>
    /// All alike at 10, 30, 50 of 60, so each of the five places is not below any other. The right end less the left one weighs
    /// -3/2, 0, 3/2, and the right reading is known to 0.005 where the others are to 0.001: 0.0015·√26 = 0.0076486, the most of all.
    /// </summary>
    [Fact]
    public void Differences_AllAlike_TellTheLeastCertainFirst()
    {
        var fit = WidthFit.Through(
            [Measured(10m, 4m, 0.001m), Measured(30m, 4m, 0.001m), Measured(50m, 4m, 0.005m)],
            Mm(60m)
        )!;

        Assert.Equal(5 * 4, fit.Differences.Length);
        Assert.Equal(0.0076486m, fit.Differences[0].By.U());
        Assert.Equal(
            new[] { Mm(0m), Mm(60m) },
            new[] { fit.Differences[0].Above, fit.Differences[0].Below }.Order()
        );
    }

    [Fact]
    public void Difference_OfIntervals_IsToldByNone() =>
        Assert.Null(
            WidthFit
                .Through([Interval(51m, 0m, 1m), Interval(459m, 1m, 3m)], Mm(510m))!
                .Difference(Mm(459m), Mm(51m))
        );

    /// <summary>
    /// 4, 4.005, 4 scatter by 0.005·√(2/3) = 0.00408. Of u = 0.005 their gauge shares 0.004, which moves all three alike and explains
    /// none of it: 0.003 is left.
    /// </summary>
    [Fact]
    public void IsUneven_BeyondWhatIsTheReadingsOwn_Is()
    {
        var fit = WidthFit.Through(
            [Measured(0m, 4m, 0.005m), Measured(50m, 4.005m, 0.005m), Measured(100m, 4m, 0.005m)],
            Mm(100m),
            StandardUncertainty.From(Mm(0.004m))
        )!;

        Assert.True(fit.IsUneven);
    }

    /// <summary>
    /// As much as RoomOf with both limits, on the side that is limited: the left end is 1.125 of the left reading less 0.125 of the
    /// right. Left from 5 to 6, right from 0 to 9: the right reading lies from (1.125·6 - 7)/0.125 = -2 for at most 7, the left up to
    /// (7 + 0)/1.125 = 6.2222222 for at most 7, and from (5 + 0.125·9)/1.125 = 5.4444444 for at least 5.
    /// </summary>
    [Fact]
    public void RoomOf_OneLimit_IsOpenToTheOtherSide()
    {
        var fit = WidthFit.Through([Interval(51m, 5m, 6m), Interval(459m, 0m, 9m)], Mm(510m))!;

        var right = fit.RoomOf(1, Mm(0m), null, Mm(7m))!;
        var upTo = fit.RoomOf(0, Mm(0m), null, Mm(7m))!;
        var from = fit.RoomOf(0, Mm(0m), Mm(5m), null)!;

        Assert.Equal((Mm(-2m), null), (right.Least, right.Greatest));
        Assert.Null(upTo.Least);
        Assert.Equal(6.2222222m, Math.Round(upTo.Greatest!.Value.Millimetres, 7));
        Assert.Null(from.Greatest);
        Assert.Equal(5.4444444m, Math.Round(from.Least!.Value.Millimetres, 7));
    }
}
