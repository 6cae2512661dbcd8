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
}
