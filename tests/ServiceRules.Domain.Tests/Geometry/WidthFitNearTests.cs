using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>
/// What stands at an end that was read is told by its reading: within 5 mm of it, on a width of 510 mm, and not by a line that a bow
/// draws elsewhere.
/// </summary>
public sealed class WidthFitNearTests
{
    private static WidthFit Fit(decimal left, decimal right) =>
        WidthFit.Through(
            [
                Measured(left, 0.010m, 0.0003m),
                Measured(51m, 0.024m, 0.0003m),
                Measured(255m, 0.050m, 0.0003m),
                Measured(459m, 0.024m, 0.0003m),
                Measured(right, 0.010m, 0.0003m),
            ],
            Mm(510m)
        )!;

    [Theory]
    [InlineData(0, 510, true, true)]
    [InlineData(5, 505, true, true)]
    [InlineData(-5, 515, true, true)]
    [InlineData(5.000001, 505, false, true)]
    [InlineData(5, 504.999999, true, false)]
    public void IsRead_WithinFiveMillimetres_Is(decimal left, decimal right, bool atLeft, bool atRight)
    {
        var fit = Fit(left, right);

        Assert.Equal((atLeft, atRight), (fit.IsRead(Mm(0m)), fit.IsRead(Mm(510m))));
    }

    /// <summary>Five stations make 20 ordered pairs, 10 of them not below nothing, and as many again where both are alike: (3, 507) and (51, 459).</summary>
    [Fact]
    public void Differences_EndsThatWereRead_AreTheirStations()
    {
        var fit = Fit(3m, 507m);

        Assert.Equal(12, fit.Differences.Length);
        Assert.Equal(Mm(0.040m), fit.Differences[0].By.Value);
        // u·√2, with no share of how the readings depart from a line.
        Assert.Equal(0.0004243m, fit.Differences[0].By.U());
        Assert.DoesNotContain(fit.Differences, pair => pair.Above == Mm(0m) || pair.Below == Mm(0m));
        Assert.DoesNotContain(fit.Differences, pair => pair.Above == Mm(510m) || pair.Below == Mm(510m));
    }

    /// <summary>The middle too was read: nothing is left for the parabola to tell.</summary>
    [Fact]
    public void DifferencesByParabola_EndsAndMiddleThatWereRead_AreTheStationsAlone()
    {
        Assert.Equal(
            Fit(3m, 507m).Differences.Select(pair => pair.By),
            Fit(3m, 507m).DifferencesByParabola.Select(pair => pair.By)
        );
        Assert.Contains(Fit(6m, 504m).DifferencesByParabola, pair => pair.Below == Mm(0m));
    }

    /// <summary>
    /// Without the middle the parabola a + c·t² through 0.010 at t = ±1/2 and 0.031 at ±2/5 tells it: c = -0.021/0.09, so that
    /// a = 0.010 + 0.25·0.021/0.09 lies 0.0583333 above the ends.
    /// </summary>
    [Fact]
    public void DifferencesByParabola_MiddleThatWasNotRead_IsTold()
    {
        var fit = WidthFit.Through(
            [
                Measured(0m, 0.010m, 0.0003m),
                Measured(51m, 0.031m, 0.0003m),
                Measured(459m, 0.031m, 0.0003m),
                Measured(510m, 0.010m, 0.0003m),
            ],
            Mm(510m)
        )!;

        var largest = fit.DifferencesByParabola[0];

        Assert.Equal((Mm(255m), 0.0583333m), (largest.Above, Math.Round(largest.By.Value.Millimetres, 7)));
    }

    /// <summary>Between the readings alone: from 0.01 to 0.04; the line's ends would reach further.</summary>
    [Fact]
    public void Range_OfIntervalsAtTheEnds_IsThatOfTheReadings()
    {
        var fit = WidthFit.Through([Interval(4m, 0.01m, 0.02m), Interval(506m, 0.03m, 0.05m)], Mm(510m))!;

        Assert.Equal(LengthInterval.Between(Mm(0.01m), Mm(0.04m)), fit.Range);
        // u·√2, as of two readings.
        Assert.Equal((0.040m, 0.0004243m), (Fit(5m, 505m).Range.Value(), Fit(5m, 505m).Range.U()));
    }
}
