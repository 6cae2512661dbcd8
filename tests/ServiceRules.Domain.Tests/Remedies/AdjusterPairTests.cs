using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class AdjusterPairTests
{
    private static AdjusterPair Pair { get; } = ClickSolverTests.Pair(0m, 500m, 0.0127m);

    [Theory]
    [InlineData(0, 0, 0.0127)]
    [InlineData(500, 0, 0.0127)]
    [InlineData(0, 0.999, 0.0127)]
    [InlineData(0, 500, 0)]
    public void TryCreate_UnusableAdjusters_AreRefused(decimal left, decimal right, decimal step)
    {
        Assert.False(AdjusterPair.TryCreate(Mm(left), Mm(right), Mm(step), Approach.Either, out var pair));
        Assert.Null(pair);
    }

    [Fact]
    public void TryCreate_AdjustersAMillimetreApart_AreUsable() =>
        Assert.True(AdjusterPair.TryCreate(Mm(10m), Mm(11m), Mm(0.0127m), Approach.Either, out _));

    /// <summary>Two steps too far and two back, on top of those that were asked, against the approach only.</summary>
    [Theory]
    [InlineData(Approach.Opening, -3, 7)]
    [InlineData(Approach.Opening, 3, 3)]
    [InlineData(Approach.Closing, 3, 7)]
    [InlineData(Approach.Closing, -3, 3)]
    [InlineData(Approach.Either, -3, 3)]
    [InlineData(Approach.Opening, 0, 0)]
    public void Cost_OfSteps_CountsTheTakeUpAgainstTheApproach(Approach approach, int steps, int expected)
    {
        var pair = ClickSolverTests.Pair(0m, 500m, 0.0127m, approach) with { TakeUp = 2 };

        Assert.Equal(expected, pair.Cost(steps));
        Assert.Equal(expected, pair.MovesFor(steps).Length);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    public void TakeUp_FromOneToTenSteps_IsKept(int steps) =>
        Assert.Equal(steps, (Pair with { TakeUp = steps }).TakeUp);

    [Theory]
    [InlineData(0)]
    [InlineData(11)]
    public void TakeUp_OfAnyOther_IsRefused(int steps)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Pair with { TakeUp = steps });

        Assert.Contains("accepted is 1 to 10 steps", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(steps, refusal.ActualValue);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(200)]
    public void Travel_FromNoneTo200Steps_IsKept(int steps) =>
        Assert.Equal(steps, (Pair with { Travel = steps }).Travel);

    [Theory]
    [InlineData(-1)]
    [InlineData(201)]
    public void Travel_OfAnyOther_IsRefused(int steps)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Pair with { Travel = steps });

        Assert.Contains("accepted is 0 to 200 steps", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(steps, refusal.ActualValue);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.0127)]
    public void LeastStep_FromZeroToTheStep_IsKept(decimal least) =>
        Assert.Equal(Mm(least), (Pair with { LeastStep = Mm(least) }).LeastStep);

    [Theory]
    [InlineData(-0.0001)]
    [InlineData(0.0128)]
    public void LeastStep_OfAnyOther_IsRefused(decimal least)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Pair with { LeastStep = Mm(least) });

        Assert.Contains("accepted is zero to the step itself", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(Mm(least), refusal.ActualValue);
    }

    [Theory]
    [InlineData(0.0127)]
    [InlineData(0.05)]
    public void MostStep_OfTheStepOrMore_IsKept(decimal most) =>
        Assert.Equal(Mm(most), (Pair with { MostStep = Mm(most) }).MostStep);

    [Fact]
    public void MostStep_BelowTheStep_IsRefused()
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Pair with { MostStep = Mm(0.0126m) });

        Assert.Contains("accepted is the step itself or more", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(Mm(0.0126m), refusal.ActualValue);
    }
}
