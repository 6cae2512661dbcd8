using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Conformity;

public sealed class ToleranceZoneTests
{
    private static readonly ToleranceZone Band = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));

    [Theory]
    [InlineData(0.03, 0.01)]
    [InlineData(0.048, 0.002)]
    [InlineData(0.05, 0)]
    [InlineData(0.06, -0.01)]
    [InlineData(0.005, -0.015)]
    public void MarginOf_TwoSided_IsTheDistanceToTheNearestLimit(decimal value, decimal expected) =>
        Assert.Equal(Mm(expected), Band.MarginOf(Mm(value)));

    [Fact]
    public void MarginOf_OneSided_IsTheDistanceToTheOneLimit()
    {
        Assert.Equal(Mm(0.01m), ToleranceZone.AtLeast(Mm(0.02m)).MarginOf(Mm(0.03m)));
        Assert.Equal(Mm(-0.01m), ToleranceZone.AtLeast(Mm(0.02m)).MarginOf(Mm(0.01m)));
        Assert.Equal(Mm(0.01m), ToleranceZone.AtMost(Mm(0.05m)).MarginOf(Mm(0.04m)));
        Assert.Equal(Mm(-0.01m), ToleranceZone.AtMost(Mm(0.05m)).MarginOf(Mm(0.06m)));
    }

    [Fact]
    public void TryCreate_OneLimitIsEnough_AndBothMayCoincide()
    {
        Assert.True(ToleranceZone.TryCreate(Mm(1m), null, out var least));
        Assert.Equal(ToleranceZone.AtLeast(Mm(1m)), least);
        Assert.True(ToleranceZone.TryCreate(null, Mm(1m), out var most));
        Assert.Equal(ToleranceZone.AtMost(Mm(1m)), most);
        Assert.True(ToleranceZone.TryCreate(Mm(1m), Mm(1m), out var point));
        Assert.Equal(Length.Zero, point.Width);
    }

    [Fact]
    public void TryCreate_NoLimitOrCrossedLimits_LeavesNoZone()
    {
        Assert.False(ToleranceZone.TryCreate(null, null, out var unlimited));
        Assert.Null(unlimited);
        Assert.False(ToleranceZone.TryCreate(Mm(2m), Mm(1m), out var crossed));
        Assert.Null(crossed);
    }

    [Fact]
    public void Between_CrossedLimits_NamesBothAndTheOrder() =>
        Assert.StartsWith(
            "`2 mm` is above `1 mm`; accepted is lower limit first",
            Assert.Throws<ArgumentException>(() => ToleranceZone.Between(Mm(2m), Mm(1m))).Message,
            StringComparison.Ordinal
        );
}
