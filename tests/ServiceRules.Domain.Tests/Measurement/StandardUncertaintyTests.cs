using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

public sealed class StandardUncertaintyTests
{
    [Fact]
    public void From_BeyondAKilometre_IsRefused()
    {
        Assert.Equal(Mm(1_000_000m), StandardUncertainty.From(Mm(1_000_000m)).Value);
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardUncertainty.From(Mm(1_000_000.1m)));
    }

    [Fact]
    public void FromComputed_BelowNothing_IsRefusedAndBeyondAKilometreStaysThere()
    {
        // Rounded up to a whole quantum it would pass for exactly known.
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardUncertainty.FromComputed(-1e-9));
        Assert.Equal(Mm(1_000_000m), StandardUncertainty.FromComputed(1e30).Value);
    }

    [Theory]
    [InlineData(0.001, 0.002)]
    [InlineData(0.002, 0.001)]
    [InlineData(0.001, 0.001)]
    public void Operators_AnyPair_OrderAsTheirLengthsDo(decimal left, decimal right)
    {
        var (one, other) = (StandardUncertainty.From(Mm(left)), StandardUncertainty.From(Mm(right)));

        Assert.Equal(left < right, one < other);
        Assert.Equal(left > right, one > other);
        Assert.Equal(left <= right, one <= other);
        Assert.Equal(left >= right, one >= other);
        Assert.Equal(left.CompareTo(right), one.CompareTo(other));
    }
}
