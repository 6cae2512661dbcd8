using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Geometry;

public class KnownDifferenceTests
{
    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static MeasuredValue Measured(decimal value, decimal uncertainty) =>
        new(Mm(value), StandardUncertainty.From(Mm(uncertainty)));

    [Fact]
    public void Between_MeasuredValues_AddsUncertaintiesSquareAndSquare()
    {
        // 0.003² + 0.004² = 0.005².
        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(Measured(4.1m, 0.003m), Measured(4.0m, 0.004m))
        );

        Assert.Equal(Mm(0.1m), difference.Value);
        Assert.Equal(Mm(0.005m), difference.Uncertainty.Value);
    }

    [Fact]
    public void Between_ReadingsOfOneGauge_LeavesOutWhatTheyShare()
    {
        // Of 0.005 each, 0.004 is shared: 0.003 is left of each, 0.003·√2 = 0.00424264… of the difference.
        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(Measured(4.1m, 0.005m), Measured(4.0m, 0.005m), Of("gauge"), Of("gauge"))
        );

        Assert.Equal(Mm(0.0042427m), difference.Uncertainty.Value);

        static SharedError Of(string gauge) => new(StandardUncertainty.From(Mm(0.004m)), gauge);
    }

    [Fact]
    public void Between_ReadingsThatScatterByOneEstimate_AreKnownNoBetterThanIt()
    {
        // Both scatter by one s on 4 degrees of freedom: the difference has 4, not 8; its k is that of 4, 2.869309.
        var one = new SharedError(StandardUncertainty.From(Mm(0.004m)), "gauge")
        {
            Rest = DegreesOfFreedom.Of(4),
        };

        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(Measured(4.1m, 0.005m), Measured(4.0m, 0.005m), one, one)
        );

        Assert.Equal(4, difference.DegreesOfFreedom.Truncated);
    }

    [Fact]
    public void Between_ReadingsOfOneGaugeKnownUnequally_AreKnownNoBetterThanTheWorse()
    {
        var (well, badly) = (Scattering(9), Scattering(4));

        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(Measured(4.1m, 0.005m), Measured(4.0m, 0.005m), well, badly)
        );

        Assert.Equal(4, difference.DegreesOfFreedom.Truncated);

        static SharedError Scattering(double degreesOfFreedom) =>
            new(StandardUncertainty.From(Mm(0.004m)), "gauge")
            {
                Rest = DegreesOfFreedom.Of(degreesOfFreedom),
            };
    }

    [Fact]
    public void Between_ReadingsOfTwoGauges_ShareNothing()
    {
        // 0.005·√2.
        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(
                Measured(4.1m, 0.005m),
                Measured(4.0m, 0.005m),
                new(StandardUncertainty.From(Mm(0.004m)), "one"),
                new(StandardUncertainty.From(Mm(0.004m)), "other")
            )
        );

        Assert.Equal(Mm(0.0070711m), difference.Uncertainty.Value);
    }

    [Fact]
    public void Between_ReadingsOfALittleKnownCalibration_AreKnownAsWellAsWhatIsLeft()
    {
        // u² = 0.004² on 3 + 0.003² taken as known: 0.005 on 3·(0.005/0.004)⁴ = 7.32. The calibration drops out, and with
        // it the doubt about its size: 0.003·√2, taken as known.
        var read = Measured(4.1m, 0.005m) with
        {
            DegreesOfFreedom = DegreesOfFreedom.Of(7.32),
        };
        SharedError calibration = new(StandardUncertainty.From(Mm(0.004m)), "gauge", DegreesOfFreedom.Of(3))
        {
            Rest = DegreesOfFreedom.Infinite,
        };

        var difference = Assert.IsType<MeasuredValue>(
            KnownDifference.Between(read, read, calibration, calibration)
        );

        Assert.Equal(Mm(0.0042427m), difference.Uncertainty.Value);
        Assert.True(difference.DegreesOfFreedom.IsInfinite);
    }

    [Fact]
    public void Between_IntervalAndValue_TakesAllThatTheyAdmit()
    {
        var difference = KnownDifference.Between(
            LengthInterval.Between(Mm(1m), Mm(2m)),
            MeasuredValue.Exact(Mm(0.5m))
        );

        Assert.Equal(LengthInterval.Between(Mm(0.5m), Mm(1.5m)), difference);
    }
}
