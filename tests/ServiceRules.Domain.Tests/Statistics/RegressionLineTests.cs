using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Statistics;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Statistics;

public sealed class RegressionLineTests
{
    // x 1 to 5, y 2, 4, 5, 4, 5, reckoned by hand: x̄ = 3, ȳ = 4, Σ(x - x̄)² = 10, Σ(x - x̄)(y - ȳ) = 6; b = 0.6, a = 2.2;
    // residuals -0.8, 0.6, 1.0, -0.6, -0.2, squares 2.4; s² = 0.8 on 3; t at 95 % = 3.182446305284 (JCGM 100, Table G.2).
    private static readonly RegressionLine Line = RegressionLine.Through([
        (1, 2),
        (2, 4),
        (3, 5),
        (4, 4),
        (5, 5),
    ])!;

    private const decimal T = 3.182446305284m;

    [Fact]
    public void Through_FivePoints_GivesTheLineAndItsDeviations()
    {
        Assert.Equal(5, Line.Count);
        Assert.Equal(3, Line.DegreesOfFreedom);
        Near(0.6m, Line.Slope);
        Near(2.2m, Line.Intercept);
        // √0.8; √0.08.
        Near(0.894427191m, Line.ResidualStandardDeviation, 1e-9m);
        Near(0.282842712m, Line.SlopeStandardDeviation, 1e-9m);
        // 1 - 2.4/6.
        Near(0.6m, Line.RSquared);
    }

    [Fact]
    public void PredictionHalfWidth_AtAPoint_IsThatOfOneMoreReading()
    {
        // At x = 6: √(1 + 1/5 + 9/10) = √2.1; times √0.8.
        Near(T * 1.296148139m, Line.PredictionHalfWidth(6, CoverageLevel.NinetyFive), 1e-8m);
        Near(5.8m, Line.At(6));
    }

    [Fact]
    public void ReachOf_ASlopeNotShown_LeavesTheEndsOpen()
    {
        // F = 3.6/0.8 = 4.5: below t² = 10.1 at 95 %, above 1.43 at 68.27 %.
        Assert.False(Line.ShowsSlope(CoverageLevel.NinetyFive));
        Assert.True(Line.ShowsSlope(CoverageLevel.SixtyEight));
        var reach = Line.ReachOf(7, CoverageLevel.NinetyFive)!;
        Near(8m, reach.Best);
        Assert.Null(reach.From);
        Assert.Null(reach.Until);
    }

    [Fact]
    public void ReachOf_AShownSlope_EndsWhereTheBandOfTheLineReachesTheValue()
    {
        var line = RegressionLine.Through([
            (0, 10.02m),
            (100, 9.49m),
            (200, 9.03m),
            (300, 8.48m),
            (400, 8.01m),
        ])!;

        var reach = line.ReachOf(6, CoverageLevel.NinetyFive)!;

        Near(6m, line.At(reach.Best), 1e-12m);
        var until = reach.Until!.Value;
        var from = reach.From!.Value;
        Near(6m, line.At(from) - OfTheLine(line, from), 1e-10m);
        Near(6m, line.At(until) + OfTheLine(line, until), 1e-10m);
        Assert.True(from < reach.Best && reach.Best < until);
    }

    [Fact]
    public void ReachOf_ARisingLine_EndsInTheSameOrder()
    {
        var line = RegressionLine.Through([(0, 1.02m), (1, 1.98m), (2, 3.01m), (3, 4.00m)])!;

        var reach = line.ReachOf(8, CoverageLevel.NinetyFive)!;

        Assert.True(reach.From < reach.Best && reach.Best < reach.Until);
        Near(8m, line.At(reach.From!.Value) + OfTheLine(line, reach.From.Value), 1e-10m);
    }

    /// <summary>The band of the line itself: that of one more reading without the reading's own t·s.</summary>
    private static decimal OfTheLine(RegressionLine line, decimal x)
    {
        var own =
            CoverageFactor.At(CoverageLevel.NinetyFive, DegreesOfFreedom.Of(line.DegreesOfFreedom))
            * line.ResidualStandardDeviation;
        var further = line.PredictionHalfWidth(x, CoverageLevel.NinetyFive);
        return (decimal)Math.Sqrt((double)((further * further) - (own * own)));
    }

    [Fact]
    public void ReachOf_ALevelLine_IsNone() =>
        Assert.Null(RegressionLine.Through([(0, 1), (1, 1), (2, 1)])!.ReachOf(0, CoverageLevel.NinetyFive));

    /// <summary>Sums of 125.4 over three points and more leave some 1e-28 of rounding, which is no wear.</summary>
    [Theory]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(10)]
    [InlineData(11)]
    [InlineData(12)]
    public void ReachOf_EqualValues_IsNoneAndNeitherSlopesNorBends(int count)
    {
        var line = RegressionLine.Through([
            .. Enumerable.Range(0, count).Select(at => ((decimal)(at * 97) + (at * at * 0.1m), 125.4m)),
        ])!;

        Assert.Equal(0m, line.Slope);
        Assert.False(line.ShowsSlope(CoverageLevel.SixtyEight));
        Assert.False(line.ShowsBend(CoverageLevel.SixtyEight));
        Assert.Null(line.ReachOf(114m, CoverageLevel.NinetyFive));
    }

    /// <summary>1e-18 of a slope of one reaches 100 at 1e20, too far for a decimal to be of use.</summary>
    [Fact]
    public void ReachOf_ALineNearlyLevel_IsNone() =>
        Assert.Null(
            RegressionLine
                .Through([(0, 0), (1, 1e-18m), (2, 2e-18m)])!
                .ReachOf(100m, CoverageLevel.NinetyFive)
        );

    [Fact]
    public void Through_PointsOnALine_ShowTheirSlopeWithoutABand()
    {
        var line = RegressionLine.Through([(0, 1), (1, 3), (2, 5)])!;

        Assert.True(line.ShowsSlope(CoverageLevel.ThreeSigma));
        Assert.False(line.ShowsBend(CoverageLevel.SixtyEight));
        Near(0m, line.PredictionHalfWidth(9, CoverageLevel.ThreeSigma));
        Near(4m, line.ReachOf(9, CoverageLevel.NinetyFive)!.Until!.Value);
        Assert.False(RegressionLine.Through([(0, 1), (1, 1), (2, 1)])!.ShowsSlope(CoverageLevel.SixtyEight));
    }

    [Fact]
    public void ShowsBend_AParabola_IsSeenAndALineIsNot()
    {
        var bent = RegressionLine.Through([
            (0, 0.1m),
            (1, 0.9m),
            (2, 4.1m),
            (3, 8.9m),
            (4, 16.1m),
            (5, 24.9m),
        ])!;

        Assert.True(bent.ShowsBend(CoverageLevel.NinetyFive));
        Assert.False(Line.ShowsBend(CoverageLevel.NinetyFive));
    }

    [Fact]
    public void Through_TwoPointsOrOnePlace_IsNone()
    {
        Assert.Null(RegressionLine.Through([(0, 1), (1, 3)]));
        Assert.Null(RegressionLine.Through([(4, 1), (4, 3), (4, 2)]));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Through_PointsInAnyOrder_GivesTheSameForecast(sbyte[] heights, byte x)
    {
        ImmutableArray<(decimal X, decimal Y)> points =
        [
            .. heights.Select((y, at) => ((decimal)at, y * 0.01m)),
        ];

        var forward = RegressionLine.Through(points);
        var backward = RegressionLine.Through([.. points.Reverse()]);

        Assert.Equal(forward is null, backward is null);
        if (forward is not null)
        {
            Near(forward.At(x), backward!.At(x), 1e-20m);
            Near(forward.ResidualStandardDeviation, backward.ResidualStandardDeviation, 1e-12m);
        }
    }
}
