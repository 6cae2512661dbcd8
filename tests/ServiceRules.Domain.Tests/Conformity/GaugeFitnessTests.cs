using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

public sealed class GaugeFitnessTests
{
    private static readonly ToleranceZone Band = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));

    [Theory]
    [InlineData(0.0075, GaugeFitnessOutcome.Fit)]
    [InlineData(0.0075001, GaugeFitnessOutcome.Unfit)]
    public void Judge_TwoSided_ComparesWithHalfTheTolerance(decimal u, GaugeFitnessOutcome expected)
    {
        var fitness = Fitness(Band, u, DecisionRule.FullGuard, null, null);

        Assert.Equal(expected, fitness.Outcome);
        Assert.Equal(Mm(0.015m), fitness.CoarsestExpanded);
    }

    [Fact]
    public void Judge_NinetyFivePercentGuard_AllowsACoarserGauge() =>
        // 0.015 / 0.825 = 0.01818181…
        Assert.Equal(
            Mm(0.0181818m),
            Fitness(Band, 0.009m, DecisionRule.NinetyFivePercentGuard, null, null).CoarsestExpanded
        );

    [Fact]
    public void Judge_OneSidedGap_UsesTheDistanceToZero()
    {
        var limit = ToleranceZone.AtMost(Mm(0.05m));

        Assert.Equal(
            GaugeFitnessOutcome.Fit,
            Fitness(limit, 0.025m, DecisionRule.FullGuard, null, Mm(0m)).Outcome
        );
        Assert.Equal(
            GaugeFitnessOutcome.Unfit,
            Fitness(limit, 0.0251m, DecisionRule.FullGuard, null, Mm(0m)).Outcome
        );
    }

    [Fact]
    public void Judge_OneSidedWithTarget_UsesTheTargetBeforeTheNaturalBound() =>
        Assert.Equal(
            Mm(0.01m),
            Fitness(ToleranceZone.AtMost(Mm(0.05m)), 0.02m, DecisionRule.FullGuard, Mm(0.04m), Mm(0m)).Room
        );

    [Fact]
    public void Judge_OneSidedWithNeither_IsNotJudged()
    {
        var fitness = Fitness(ToleranceZone.AtLeast(Mm(122m)), 5m, DecisionRule.FullGuard, null, null);

        Assert.Equal(GaugeFitnessOutcome.NotJudged, fitness.Outcome);
        Assert.Null(fitness.CoarsestExpanded);
    }

    [Fact]
    public void Judge_ByProbability_UsesTheNormalQuantiles()
    {
        // One-sided: 0.05 / 1.6448536 · 2 = 0.0607956…; two-sided: 0.015 / 1.9599640 · 2 = 0.0153064…
        Assert.Equal(
            Mm(0.0607956m),
            Fitness(
                ToleranceZone.AtMost(Mm(0.05m)),
                0.01m,
                DecisionRule.NinetyFiveToFive,
                null,
                Mm(0m)
            ).CoarsestExpanded
        );
        Assert.Equal(
            Mm(0.0153064m),
            Fitness(Band, 0.01m, DecisionRule.NinetyFiveToFive, null, null).CoarsestExpanded
        );
    }

    [Theory]
    // Room 0.015: U = 0.015 leaves the middle alone as its own limit, which is out; 0.0149999 leaves 1e-7 to each side.
    [InlineData(0.0075, GaugeFitnessOutcome.Unfit)]
    [InlineData(0.00749995, GaugeFitnessOutcome.Unfit)]
    [InlineData(0.0074999, GaugeFitnessOutcome.Fit)]
    public void Judge_LimitItselfExcluded_NamesAGaugeThatWouldDo(decimal u, GaugeFitnessOutcome expected)
    {
        var fitness = Fitness(Open(Band), u, DecisionRule.FullGuard, null, null);

        Assert.Equal(expected, fitness.Outcome);
        Assert.Equal(Mm(0.0149999m), fitness.CoarsestExpanded);
    }

    [Fact]
    public void Judge_LimitItselfExcludedUnderAnotherFactor_NamesTheNextBelow() =>
        // 3·0.005 takes the whole room of 0.015; 3·0.0049999 leaves 3e-7 to each side.
        Assert.Equal(
            Mm(0.0049999m),
            Fitness(Open(Band), 0.001m, new DecisionRule.Guarded(3m), null, null).CoarsestExpanded
        );

    [Fact]
    public void Judge_LimitItselfExcludedAndGuardedToARisk_CountsTheGuardAsItIsRounded()
    {
        // Quantile of 5 %: 1.6448536. Permitted, the guard may be 0.015: 0.015·2/1.6448536 = 0.01823871. Excluded, it may be
        // 0.0149999, the next below: 0.0149999·2/1.6448536 = 0.01823859, while 0.0182386 guards 0.01499991, rounded up 0.015.
        var rule = new DecisionRule.GuardedToRisk(Probability.Of(0.05m));

        Assert.Equal(Mm(0.0182387m), Fitness(Band, 0.009m, rule, null, null).CoarsestExpanded);
        Assert.Equal(Mm(0.0182385m), Fitness(Open(Band), 0.009m, rule, null, null).CoarsestExpanded);
    }

    [Fact]
    public void Judge_LimitItselfExcludedByProbability_HasNoLimitToLeave()
    {
        // u = 0.0075 met at the middle from p = 2·Φ(2) - 1 = 0.9544997 on: U = 0.015 with the room 0.015.
        var rule = new DecisionRule.ByProbability(Probability.Of(0.9544997m), Probability.Of(0.05m));

        var fitness = Fitness(Open(Band), 0.0075m, rule, null, null);

        Assert.Equal(Mm(0.015m), fitness.CoarsestExpanded);
        Assert.Equal(GaugeFitnessOutcome.Fit, fitness.Outcome);
    }

    private static ToleranceZone Open(ToleranceZone zone) => zone.With(LimitItself.Excluded)!;

    [Property(MaxTest = PropertyCases.Each)]
    public void Judge_TwoSided_AgreesWithWhatTheMiddleWouldBeJudged(
        byte u,
        byte degreesOfFreedom,
        bool byProbability
    )
    {
        var rule = byProbability ? DecisionRule.NinetyFiveToFive : DecisionRule.FullGuard;
        var uncertainty = StandardUncertainty.From(Mm((u + 1) * 0.0001m));
        var known = DegreesOfFreedom.Of(degreesOfFreedom + 1);

        var fitness = GaugeFitness.Judge(
            Band,
            new MeasuredValue(Mm(0m), uncertainty, known).Errors,
            rule,
            null,
            null
        );
        var best = Judge.Decide(Band, new MeasuredValue(Band.Middle!.Value, uncertainty, known), rule);

        Assert.Equal(best.Verdict == Verdict.Met, fitness.Outcome == GaugeFitnessOutcome.Fit);
    }

    private static GaugeFitness Fitness(
        ToleranceZone zone,
        decimal u,
        DecisionRule rule,
        Length? target,
        Length? naturalBound
    ) =>
        GaugeFitness.Judge(
            zone,
            new MeasuredValue(Mm(0m), StandardUncertainty.From(Mm(u))).Errors,
            rule,
            target,
            naturalBound
        );
}
