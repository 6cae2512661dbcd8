using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>Equality at a limit, by its name, in exact decimals.</summary>
public sealed class EqualityTests
{
    private static readonly ToleranceZone Permitted = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));
    private static readonly ToleranceZone Excluded = Permitted.With(LimitItself.Excluded)!;

    [Theory]
    [InlineData(0.05, Verdict.Met, Verdict.NotMet)]
    [InlineData(0.02, Verdict.Met, Verdict.NotMet)]
    [InlineData(0.0499999999, Verdict.Met, Verdict.Met)]
    [InlineData(0.0200000001, Verdict.Met, Verdict.Met)]
    [InlineData(0.0500000001, Verdict.NotMet, Verdict.NotMet)]
    public void Decide_WithoutGuard_TurnsOnTheLimitItself(decimal value, Verdict permitted, Verdict excluded)
    {
        Assert.Equal(permitted, Decided(Permitted, value, 0.003m, DecisionRule.Unguarded));
        Assert.Equal(excluded, Decided(Excluded, value, 0.003m, DecisionRule.Unguarded));
        // What is exactly known needs no guard.
        Assert.Equal(permitted, Decided(Permitted, value, 0m, DecisionRule.FullGuard));
        Assert.Equal(excluded, Decided(Excluded, value, 0m, DecisionRule.FullGuard));
        Assert.Equal(permitted, Decided(Permitted, value, 0m, DecisionRule.NinetyFiveToFive));
        Assert.Equal(excluded, Decided(Excluded, value, 0m, DecisionRule.NinetyFiveToFive));
    }

    [Theory]
    // U = 0.006: acceptance 0.026 to 0.044, not met below 0.014 and above 0.056.
    [InlineData(0.044, Verdict.Met, Verdict.Unproven)]
    [InlineData(0.026, Verdict.Met, Verdict.Unproven)]
    [InlineData(0.0439999999, Verdict.Met, Verdict.Met)]
    [InlineData(0.056, Verdict.Unproven, Verdict.NotMet)]
    [InlineData(0.014, Verdict.Unproven, Verdict.NotMet)]
    [InlineData(0.0559999999, Verdict.Unproven, Verdict.Unproven)]
    public void Decide_Guarded_TurnsOnTheEdgesOfBothZones(decimal value, Verdict permitted, Verdict excluded)
    {
        Assert.Equal(permitted, Decided(Permitted, value, 0.003m, DecisionRule.FullGuard));
        Assert.Equal(excluded, Decided(Excluded, value, 0.003m, DecisionRule.FullGuard));
    }

    [Theory]
    [InlineData("[", 0.02, 0.05, "]", Verdict.Unproven)]
    [InlineData("]", 0.02, 0.05, "[", Verdict.Met)]
    [InlineData("[", 0.02, 0.05, "[", Verdict.Unproven)]
    [InlineData("]", 0.02, 0.05, "]", Verdict.Unproven)]
    [InlineData("[", 0.05, 0.06, "]", Verdict.NotMet)]
    [InlineData("[", 0.01, 0.02, "]", Verdict.NotMet)]
    public void Decide_Interval_CountsAnEndOnAnExcludedLimitAsOut(
        string left,
        decimal lower,
        decimal upper,
        string right,
        Verdict expected
    )
    {
        var interval = BracketedInterval.Of(left, lower, upper, right);

        Assert.Equal(expected, Judge.Decide(Excluded, interval, DecisionRule.FullGuard).Verdict);
    }

    [Fact]
    public void With_AZoneOfOneLength_HasNothingLeftInside()
    {
        var one = ToleranceZone.Between(Mm(1m), Mm(1m));

        Assert.Null(one.With(LimitItself.Excluded));
        Assert.Equal(one, one.With(LimitItself.Permitted));
        // Drawn in by half its width nothing is left either.
        Assert.Null(Excluded.DrawnIn(Mm(0.015m)));
        Assert.Equal(Mm(0.035m), Permitted.DrawnIn(Mm(0.015m))!.Lower);
    }

    [Fact]
    public void Intersect_WithAnExcludedLimit_StaysExcluded()
    {
        Assert.Equal(LimitItself.Excluded, Permitted.Intersect(Excluded)!.LimitItself);
        Assert.Equal(LimitItself.Excluded, Excluded.Intersect(Permitted)!.LimitItself);
        Assert.Equal(LimitItself.Permitted, Permitted.Intersect(Permitted)!.LimitItself);
    }

    [Fact]
    public void ToString_NamesWhetherALimitIsPermitted()
    {
        Assert.Equal("0.02 mm to 0.05 mm", Permitted.ToString());
        Assert.Equal("above 0.02 mm, below 0.05 mm", Excluded.ToString());
        Assert.Equal("below 0.05 mm", ToleranceZone.AtMost(Mm(0.05m)).With(LimitItself.Excluded)!.ToString());
        Assert.Equal(
            "above 0.02 mm",
            ToleranceZone.AtLeast(Mm(0.02m)).With(LimitItself.Excluded)!.ToString()
        );
        Assert.Equal("at most 0.05 mm", ToleranceZone.AtMost(Mm(0.05m)).ToString());
        Assert.Equal("at least 0.02 mm", ToleranceZone.AtLeast(Mm(0.02m)).ToString());
    }

    [Fact]
    public void Judge_AGuardThatTakesAllTheRoom_NeedsThePermittedLimit()
    {
        var u = StandardUncertainty.From(Mm(0.0075m));

        Assert.Equal(
            GaugeFitnessOutcome.Fit,
            GaugeFitness
                .Judge(Permitted, new MeasuredValue(Mm(0m), u).Errors, DecisionRule.FullGuard, null, null)
                .Outcome
        );
        Assert.Equal(
            GaugeFitnessOutcome.Unfit,
            GaugeFitness
                .Judge(Excluded, new MeasuredValue(Mm(0m), u).Errors, DecisionRule.FullGuard, null, null)
                .Outcome
        );
    }

    private static Verdict Decided(ToleranceZone zone, decimal value, decimal u, DecisionRule rule) =>
        Judge.Decide(zone, new MeasuredValue(Mm(value), StandardUncertainty.From(Mm(u))), rule).Verdict;
}
