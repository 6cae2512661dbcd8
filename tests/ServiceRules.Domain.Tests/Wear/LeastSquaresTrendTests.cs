using System.Collections.Immutable;
using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Tests.Statistics;
using ServiceRules.Domain.Tests.Trade;
using ServiceRules.Domain.Wear;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Wear;

[Properties(MaxTest = 1000)]
public sealed class LeastSquaresTrendTests
{
    /// <summary>
    /// Norris of the NIST Statistical Reference Datasets, certified: slope 1.00211681802045, intercept -0.262323073774029,
    /// residual standard deviation 0.884796396144373.
    /// </summary>
    [Fact]
    public void Through_Norris_MeetsTheCertifiedValues()
    {
        var trend = LeastSquaresTrend.Through(
            ReferenceDataSets.Rows("Norris").Select(row => new WearPoint(Hours(row[1]), Mm(row[0])))
        )!;

        Near(1.00211681802045m, trend.Slope.MillimetresPerHour, 1e-14m);
        // Lengths are held to 1e-12 mm.
        Near(-0.262323073774029m, trend.At(Hours(0)).Millimetres, 1e-12m);
        Near(0.884796396144373m, trend.Scatter.Millimetres, 1e-12m);
        Assert.Equal(36, trend.Readings);
        Assert.False(trend.IsBent);
    }

    /// <summary>
    /// The readings of F34 by least squares, reckoned in exact fractions apart from the product: slope -0.00343317, 125.5681 at
    /// 650 h, s = 0.07217 on 2, t = 4.302653 (JCGM 100, Table G.2); 2172 h to the limit, Fieller's band 1777 to 2747 h.
    /// </summary>
    [Fact]
    public void Reach_ReadingsOfF34_AreHandReckoned()
    {
        var formula = TradeFormula.Named("F34");
        var trend = LeastSquaresTrend.Through(Points(formula.GivenList("t"), formula.GivenList("y")))!;

        var forecast = Assert.IsType<WearForecast.Reaches>(
            trend.Reach(Mm(formula.Given("limit")), LimitSide.Lower)
        );
        var foretold = trend.Predict(Hours(1000));

        Near(-0.0034331670028665464m, trend.Slope.MillimetresPerHour, 1e-15m);
        Near(125.56813780656121m, trend.At(trend.Last).Millimetres);
        Near(0.0721698195494913m, trend.Scatter.Millimetres);
        Near(2172.3783900794756m, forecast.Left.Hours, 1e-9m);
        Near(1777.4391975618619m, forecast.Earliest!.Value.Hours, 1e-6m);
        Near(2747.2686508725956m, forecast.Latest!.Value.Hours, 1e-6m);
        Assert.Equal(LeastSquaresTrend.Level, forecast.Level);
        Near(124.36652935555792m, foretold.Value.Millimetres);
        Near(0.5554153884064453m, (foretold.Upper - foretold.Value).Millimetres, 1e-9m);
        Near(0.5554153884064453m, (foretold.Value - foretold.Lower).Millimetres, 1e-9m);
    }

    [Fact]
    public void Through_TwoReadings_IsNoTrend() =>
        Assert.Null(LeastSquaresTrend.Through(Points([0, 5], [1, 2])));

    [Fact]
    public void Through_AllAtTheSameHours_IsNoTrend() =>
        Assert.Null(LeastSquaresTrend.Through(Points([5, 5, 5], [1, 2, 3])));

    [Fact]
    public void Reach_WearThatScatterHides_LeavesTheBandOpen()
    {
        var trend = LeastSquaresTrend.Through(Points([0, 1, 2, 3], [10, 7, 11, 8]))!;

        var forecast = Assert.IsType<WearForecast.Reaches>(trend.Reach(Mm(0), LimitSide.Lower));

        Assert.Null(forecast.Earliest);
        Assert.Null(forecast.Latest);
    }

    [Fact]
    public void Reach_AtTheLimitOrAway_SaysSo()
    {
        var falling = LeastSquaresTrend.Through(Points([0, 1, 2], [10, 9, 8]))!;

        Assert.Equal(new WearForecast.Reached(Length.Zero), falling.Reach(Mm(8), LimitSide.Lower));
        Assert.Equal(new WearForecast.Reached(Mm(1)), falling.Reach(Mm(9), LimitSide.Lower));
        Assert.Equal(new WearForecast.NotApproaching(), falling.Reach(Mm(9), LimitSide.Upper));
    }

    [Fact]
    public void Reach_LevelLine_IsNotApproached() =>
        Assert.Equal(
            new WearForecast.NotApproaching(),
            LeastSquaresTrend.Through(Points([0, 1, 2], [5, 5, 5]))!.Reach(Mm(4), LimitSide.Lower)
        );

    [Fact]
    public void IsBent_WearThatQuickens_IsTold() =>
        Assert.True(
            LeastSquaresTrend.Through(Points([0, 1, 2, 3, 4, 5], [10, 9.9m, 9.6m, 9.11m, 8.4m, 7.5m]))!.IsBent
        );

    /// <summary>Without scatter both lines are the same one and foretell the same hours.</summary>
    [Property]
    public void Reach_ReadingsOnALine_AgreesWithTheRobustTrend(byte wear, ushort away)
    {
        var points = Enumerable
            .Range(0, 5)
            .Select(at => new WearPoint(Hours(at * 50), Mm(120m - ((wear + 1) * at / 100m))))
            .ToList();
        var limit = Mm(120m - ((wear + 1) * 4 / 100m) - ((away + 1) / 100m));

        var squares = Assert.IsType<WearForecast.Reaches>(
            LeastSquaresTrend.Through(points)!.Reach(limit, LimitSide.Lower)
        );
        var robust = Assert.IsType<WearForecast.Reaches>(
            RobustTrend.Through(points)!.Reach(limit, LimitSide.Lower)
        );

        Near(robust.Left.Hours, squares.Left.Hours, 1e-6m);
    }

    [Property]
    public void Predict_FurtherOut_IsLessSure(short[] values, byte further)
    {
        ImmutableArray<WearPoint> points =
        [
            .. values
                .Take(20)
                .Concat<short>([3, 1, 7])
                .Select((value, at) => new WearPoint(Hours(at * 7), Mm(value))),
        ];
        var trend = LeastSquaresTrend.Through(points)!;
        var last = trend.Last.Hours;

        var near = trend.Predict(Hours(last));
        var far = trend.Predict(Hours(last + further + 1));

        Assert.True(far.Upper - far.Lower >= near.Upper - near.Lower);
        Assert.True(near.Lower <= near.Value && near.Value <= near.Upper);
    }

    private static ImmutableArray<WearPoint> Points(
        IReadOnlyList<decimal> hours,
        IReadOnlyList<decimal> values
    ) => [.. hours.Select((at, index) => new WearPoint(Hours(at), Mm(values[index])))];

    private static OperatingHours Hours(decimal hours) =>
        OperatingHours.Parse(hours.ToString(CultureInfo.InvariantCulture) + " h").OrThrow();
}
