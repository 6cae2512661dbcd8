using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>What no line of a budget can be, and the least that it can be.</summary>
public sealed class UncertaintyContributionTests
{
    [Theory]
    [InlineData(-0.001, 2)]
    [InlineData(0.001, 0)]
    [InlineData(0.001, -2)]
    public void Calibration_BelowNothingOrWithoutAFactor_IsRefused(decimal expanded, decimal factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UncertaintyContribution.Calibration(Mm(expanded), factor)
        );

    [Theory]
    [InlineData(-0.001, 1)]
    [InlineData(0.001, 0)]
    public void Repeatability_BelowNothingOrOfNoReading_IsRefused(decimal deviation, int readings) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UncertaintyContribution.Repeatability(Mm(deviation), DegreesOfFreedom.Of(9), readings)
        );

    [Theory]
    [InlineData(-0.001, 1)]
    [InlineData(0.001, 0)]
    public void RepeatabilityUnstated_BelowNothingOrOfNoReading_IsRefused(decimal step, int readings) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UncertaintyContribution.RepeatabilityUnstated(Mm(step), readings)
        );

    [Fact]
    public void RepeatabilityUnstated_OfFourReadings_IsAQuarterOfAStep()
    {
        var line = UncertaintyContribution.RepeatabilityUnstated(Mm(0.010m), 4);

        Assert.Equal(0.0025, line.Millimetres, 1e-15);
        Assert.Equal(UncertaintySource.RepeatabilityUnstated, line.Source);
        Assert.True(line.DegreesOfFreedom.IsInfinite);
        Assert.Equal(0, UncertaintyContribution.RepeatabilityUnstated(Mm(0m), 1).Millimetres);
    }

    [Theory]
    [InlineData(-0.001, 0.01, 0.0127)]
    [InlineData(0.001, -0.01, 0.0127)]
    [InlineData(0.001, 0.01, -0.0127)]
    public void ZeroCheck_BelowNothing_IsRefused(decimal halfApart, decimal step, decimal most) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UncertaintyContribution.ZeroCheck(Mm(halfApart), Mm(step), Mm(most))
        );

    [Fact]
    public void WithinHalfWidth_BelowNothing_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UncertaintyContribution.WithinHalfWidth(UncertaintySource.Scale, Mm(-0.001m))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyContribution.Resolution(Mm(-0.001m)));
        Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyContribution.ZeroFarOff(Mm(-0.001m)));
    }

    [Fact]
    public void Of_NothingAtAll_IsTaken()
    {
        Assert.Equal(0, UncertaintyContribution.Calibration(Mm(0m), 2m).Millimetres);
        Assert.Equal(0, UncertaintyContribution.Resolution(Mm(0m)).Millimetres);
        Assert.Equal(
            0.004,
            UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Of(9), 1).Millimetres
        );
    }
}
