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
            KnownDifference.Between(
                Measured(4.1m, 0.005m),
                Measured(4.0m, 0.005m),
                StandardUncertainty.From(Mm(0.004m))
            )
        );

        Assert.Equal(Mm(0.0042427m), difference.Uncertainty.Value);
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
