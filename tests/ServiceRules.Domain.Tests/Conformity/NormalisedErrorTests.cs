using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Conformity;

public sealed class NormalisedErrorTests
{
    [Theory]
    // U 0.006 and 0.008 (k = 2): √(0.006² + 0.008²) = 0.010 exactly.
    [InlineData(0.010, true, 1.00)]
    [InlineData(0.0100001, false, 1.00)]
    [InlineData(0.025, false, 2.50)]
    [InlineData(0, true, 0)]
    public void Of_TwoGauges_AgreeUpToTheRootOfTheirSquares(decimal apart, bool agrees, decimal ratio)
    {
        var one = new MeasuredValue(Mm(4m), StandardUncertainty.From(Mm(0.003m)));
        var other = new MeasuredValue(Mm(4m - apart), StandardUncertainty.From(Mm(0.004m)));

        var forward = NormalisedError.Of(one, other);

        Assert.Equal((agrees, ratio), (forward.Agrees, forward.Value));
        Assert.Equal(Mm(0.010m), forward.Limit);
        Assert.Equal(forward, NormalisedError.Of(other, one));
    }

    [Fact]
    public void Of_ExactlyKnownValues_HaveNoRatio()
    {
        Assert.Null(NormalisedError.Of(MeasuredValue.Exact(Mm(1m)), MeasuredValue.Exact(Mm(1m))).Value);
        Assert.False(NormalisedError.Of(MeasuredValue.Exact(Mm(1m)), MeasuredValue.Exact(Mm(2m))).Agrees);
    }

    [Theory]
    // u 0.005 each, of it 0.003 in both alike: of the difference √2·0.004 = 0.00565685, U 0.0113137. Shared with another cause: √2·0.005·2.
    [InlineData("HG-01", 0.0113, true)]
    [InlineData("HG-01", 0.0114, false)]
    [InlineData("HG-02", 0.0141, true)]
    [InlineData("HG-02", 0.0142, false)]
    public void OfOneGauge_WhatBothShare_ExplainsNoDifference(string cause, decimal apart, bool agrees)
    {
        var one = new MeasuredValue(Mm(4m), StandardUncertainty.From(Mm(0.005m)));
        var shared = StandardUncertainty.From(Mm(0.003m));

        var error = NormalisedError.OfOneGauge(
            one,
            one with
            {
                Value = Mm(4m - apart),
            },
            new(shared, "HG-01"),
            new(shared, cause),
            Mm(0.001m)
        );

        Assert.Equal((Mm(apart), agrees), (error.Difference, error.Agrees));
    }

    [Theory]
    [InlineData(0.01, true)]
    [InlineData(0.0100001, false)]
    public void OfOneGauge_ReadingsAStepApart_AgreeHoweverSmallTheirUncertainty(decimal apart, bool agrees)
    {
        var error = NormalisedError.OfOneGauge(
            MeasuredValue.Exact(Mm(4m)),
            MeasuredValue.Exact(Mm(4m + apart)),
            null,
            null,
            Mm(0.01m)
        );

        Assert.Equal((Mm(0.01m), agrees), (error.Limit, error.Agrees));
    }
}
