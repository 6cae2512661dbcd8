using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Tests.Conformity;

public sealed class DecisionRuleTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(-0.5)]
    [InlineData(3.0001)]
    public void Guarded_FactorOutOfRange_IsRefused(decimal factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new DecisionRule.Guarded(factor));

    [Fact]
    public void Guarded_TheLargestFactor_IsTaken() => Assert.Equal(3m, new DecisionRule.Guarded(3m).Factor);

    [Theory]
    [InlineData(0.5, 0.5)]
    [InlineData(0.05, 0.95)]
    public void ByProbability_BoundsThatLeaveNothingBetween_AreRefusedByName(decimal met, decimal notMet) =>
        Assert.StartsWith(
            FormattableString.Invariant($"met from `{met}` does not lie above not met up to `{notMet}`"),
            Assert
                .Throws<ArgumentException>(() =>
                    new DecisionRule.ByProbability(Probability.Of(met), Probability.Of(notMet))
                )
                .Message,
            StringComparison.Ordinal
        );
}
