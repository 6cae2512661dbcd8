using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

public sealed class ConformityTests
{
    private static readonly ToleranceZone Zone = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));

    [Theory]
    [InlineData("[", 0.02, 0.05, "]", Verdict.Met)]
    [InlineData("]", 0.02, 0.05, "[", Verdict.Met)]
    [InlineData("[", 0.0199, 0.05, "]", Verdict.Unproven)]
    [InlineData("[", 0.03, 0.0501, "[", Verdict.Unproven)]
    [InlineData("[", 0.05, 0.06, "]", Verdict.Unproven)]
    [InlineData("]", 0.05, 0.06, "]", Verdict.NotMet)]
    [InlineData("[", 0.01, 0.02, "]", Verdict.Unproven)]
    [InlineData("[", 0.01, 0.02, "[", Verdict.NotMet)]
    [InlineData("[", 0.01, 0.06, "]", Verdict.Unproven)]
    public void Decide_Interval_KeepsOpenAndClosedEnds(
        string left,
        decimal lower,
        decimal upper,
        string right,
        Verdict expected
    )
    {
        var interval = BracketedInterval.Of(left, lower, upper, right);

        Assert.Equal(expected, Judge.Decide(Zone, interval, DecisionRule.FullGuard).Verdict);
    }

    [Fact]
    public void Decide_IntervalWithoutUpperEnd_IsUnprovenBecauseUnbounded()
    {
        var result = Judge.Decide(Zone, LengthInterval.AtLeast(Mm(0.03m)), DecisionRule.FullGuard);

        Assert.Equal((Verdict.Unproven, ConformityReason.IntervalUnbounded), (result.Verdict, result.Reason));
        Assert.Null(result.Margin);
        Assert.Null(result.ConformanceProbability);
    }

    [Fact]
    public void Decide_IntervalWithoutLowerEndAgainstAnUpperLimit_IsMet()
    {
        var result = Judge.Decide(
            ToleranceZone.AtMost(Mm(0.05m)),
            LengthInterval.LessThan(Mm(0.05m)),
            DecisionRule.FullGuard
        );

        Assert.Equal((Verdict.Met, Mm(0m)), (result.Verdict, result.Margin));
    }

    [Fact]
    public void Decide_IntervalOutside_ShowsTheLeastItIsOutBy()
    {
        var result = Judge.Decide(Zone, LengthInterval.Between(Mm(0.06m), Mm(0.09m)), DecisionRule.FullGuard);

        Assert.Equal((Verdict.NotMet, Mm(-0.01m)), (result.Verdict, result.Margin));
    }

    [Theory]
    // The first end is included, the second not.
    [InlineData(0.06, 0.09, -0.01)]
    [InlineData(0.005, 0.012, -0.008)]
    [InlineData(0.01, 0.02, 0)]
    public void Decide_IntervalOutsideEitherLimit_ShowsTheLeastItIsOutBy(
        decimal lower,
        decimal upper,
        decimal margin
    )
    {
        var result = Judge.Decide(Zone, HalfOpen(lower, upper), DecisionRule.FullGuard);

        Assert.Equal((Verdict.NotMet, Mm(margin)), (result.Verdict, result.Margin));
        Assert.Equal(ConformityReason.IntervalOutside, result.Reason);
    }

    [Fact]
    public void Decide_IntervalJustBeyondTheUpperLimit_IsOutByNothingYet()
    {
        Assert.True(
            LengthInterval.TryCreate(
                IntervalEnd.Open(Mm(0.05m)),
                IntervalEnd.Closed(Mm(0.06m)),
                out var beyond
            )
        );

        var result = Judge.Decide(Zone, beyond, DecisionRule.FullGuard);

        Assert.Equal((Verdict.NotMet, Mm(0m)), (result.Verdict, result.Margin));
    }

    [Theory]
    // The worst end counts: 0.025 - 0.02, 0.05 - 0.048, and below zero where it is out.
    [InlineData(0.025, 0.04, 0.005, ConformityReason.IntervalInside)]
    [InlineData(0.03, 0.048, 0.002, ConformityReason.IntervalInside)]
    [InlineData(0.013, 0.04, -0.007, ConformityReason.IntervalStraddlesLimit)]
    [InlineData(0.03, 0.06, -0.01, ConformityReason.IntervalStraddlesLimit)]
    public void Decide_Interval_ShowsWhatItsWorstEndLeaves(
        decimal lower,
        decimal upper,
        decimal margin,
        ConformityReason reason
    )
    {
        var result = Judge.Decide(Zone, HalfOpen(lower, upper), DecisionRule.FullGuard);

        Assert.Equal((reason, Mm(margin)), (result.Reason, result.Margin));
    }

    [Fact]
    public void Decide_IntervalAgainstOneLimit_ShowsTheMarginOfThatLimit()
    {
        var above = Judge.Decide(
            ToleranceZone.AtLeast(Mm(0.02m)),
            LengthInterval.AtLeast(Mm(0.03m)),
            DecisionRule.FullGuard
        );
        var below = Judge.Decide(
            ToleranceZone.AtMost(Mm(0.05m)),
            LengthInterval.LessThan(Mm(0.03m)),
            DecisionRule.FullGuard
        );

        Assert.Equal((Verdict.Met, Mm(0.01m)), (above.Verdict, above.Margin));
        Assert.Equal((Verdict.Met, Mm(0.02m)), (below.Verdict, below.Margin));
    }

    [Theory]
    [InlineData(0.044, ConformityReason.InsideAcceptanceZone)]
    [InlineData(0.0440000001, ConformityReason.InsideGuardBand)]
    [InlineData(0.05, ConformityReason.InsideGuardBand)]
    [InlineData(0.0500000001, ConformityReason.OutsideWithinGuard)]
    [InlineData(0.056, ConformityReason.OutsideWithinGuard)]
    [InlineData(0.0560000001, ConformityReason.OutsideGuardedLimits)]
    public void Decide_Guarded_NamesWhereTheValueLies(decimal value, ConformityReason expected) =>
        Assert.Equal(expected, Judge.Decide(Zone, Measured(value, 0.003m), DecisionRule.FullGuard).Reason);

    [Fact]
    public void Decide_CoarseGauge_SaysNothingCanProveItButStillFindsWhatIsClearlyOut()
    {
        var inside = Judge.Decide(Zone, Measured(0.035m, 0.01m), DecisionRule.FullGuard);
        var outside = Judge.Decide(Zone, Measured(0.08m, 0.01m), DecisionRule.FullGuard);

        Assert.Equal(
            (Verdict.Unproven, ConformityReason.EmptyAcceptanceZone),
            (inside.Verdict, inside.Reason)
        );
        Assert.Equal(
            (Verdict.NotMet, ConformityReason.OutsideGuardedLimits),
            (outside.Verdict, outside.Reason)
        );
        Assert.True(inside.CannotBeProven && outside.CannotBeProven);
    }

    [Fact]
    public void Decide_AcceptanceZoneOfASinglePoint_IsNotEmpty()
    {
        // U = 0.015 is exactly half of 0.05 - 0.02.
        Assert.Equal(
            Verdict.Met,
            Judge.Decide(Zone, Measured(0.035m, 0.0075m), DecisionRule.FullGuard).Verdict
        );
        Assert.Equal(
            ConformityReason.EmptyAcceptanceZone,
            Judge.Decide(Zone, Measured(0.035m, 0.0075001m), DecisionRule.FullGuard).Reason
        );
    }

    [Theory]
    [InlineData(1.645, Verdict.Met)]
    [InlineData(1.644, Verdict.Unproven)]
    [InlineData(-1.644, Verdict.Unproven)]
    [InlineData(-1.645, Verdict.NotMet)]
    public void Decide_ByProbability_TurnsAtTheNormalQuantile(decimal standardised, Verdict expected)
    {
        // Φ(1.644853627) = 0.95 (JCGM 106 z table).
        var measured = Measured(-0.01m * standardised, 0.01m);

        var result = Judge.Decide(ToleranceZone.AtMost(Mm(0m)), measured, DecisionRule.NinetyFiveToFive);

        Assert.Equal(expected, result.Verdict);
        Assert.Null(result.Guard);
    }

    [Fact]
    public void Decide_FewDegreesOfFreedom_GuardsWithTheWiderFactor()
    {
        var measured = new MeasuredValue(
            Mm(0.035m),
            StandardUncertainty.From(Mm(0.001m)),
            DegreesOfFreedom.Of(2.9)
        );

        var result = Judge.Decide(Zone, measured, DecisionRule.FullGuard);

        // k for 2 degrees of freedom is 4.526536687430, for 3 it is 3.306822175006 (Table G.2 prints 4.53 and 3.31). Along
        // 1/ν at 2.9: 4.526536687430 - 1.219714512424·3·0.9/2.9 = 3.390940... U is rounded up to 1e-7 mm.
        Assert.Equal(Mm(0.003391m), result.Guard);
    }

    [Fact]
    public void Between_CrossedLimits_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => ToleranceZone.Between(Mm(2m), Mm(1m)));
        Assert.False(ToleranceZone.TryCreate(null, null, out _));
    }

    [Fact]
    public void Intersect_TwoZones_KeepsTheTighterLimits()
    {
        Assert.Equal(
            ToleranceZone.Between(Mm(0.025m), Mm(0.05m)),
            ToleranceZone.Between(Mm(0.02m), Mm(0.05m)).Intersect(ToleranceZone.AtLeast(Mm(0.025m)))
        );
        Assert.Equal(
            ToleranceZone.Between(Mm(0.01m), Mm(0.02m)),
            ToleranceZone.AtLeast(Mm(0.01m)).Intersect(ToleranceZone.AtMost(Mm(0.02m)))
        );
        Assert.Null(ToleranceZone.AtMost(Mm(0.01m)).Intersect(ToleranceZone.AtLeast(Mm(0.02m))));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_MoreUncertainty_NeverProvesMore(int value, byte fine, byte extra, bool twoSided)
    {
        var zone = twoSided ? Zone : ToleranceZone.AtMost(Mm(0.05m));
        var y = (value % 100) * 0.001m;
        var sharper = Judge.Decide(zone, Measured(y, fine * 0.0001m), DecisionRule.FullGuard);
        var coarser = Judge.Decide(zone, Measured(y, (fine + extra) * 0.0001m), DecisionRule.FullGuard);

        Assert.True(coarser.Verdict == sharper.Verdict || coarser.Verdict == Verdict.Unproven);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_FewerDegreesOfFreedom_NeverProvesMore(int value, byte u, byte many, byte few)
    {
        var y = Mm((value % 100) * 0.001m);
        var uncertainty = StandardUncertainty.From(Mm(u * 0.0001m));
        var better = new MeasuredValue(y, uncertainty, DegreesOfFreedom.Of(1 + few + many));
        var worse = new MeasuredValue(y, uncertainty, DegreesOfFreedom.Of(1 + few));

        var verdict = Judge.Decide(Zone, worse, DecisionRule.FullGuard).Verdict;

        Assert.True(
            verdict == Verdict.Unproven
                || verdict == Judge.Decide(Zone, better, DecisionRule.FullGuard).Verdict
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_TowardTheMiddle_NeverWorsens(short offset, byte closer, byte u, byte rule)
    {
        var chosen = Rule(rule);
        var far = Math.Abs(offset % 60) * 0.001m;
        var near = Math.Max(0m, far - (closer * 0.0005m));
        var sign = offset < 0 ? -1 : 1;
        var middle = Zone.Middle!.Value.Millimetres;

        var before = Judge.Decide(Zone, Measured(middle + (sign * far), u * 0.0001m), chosen);
        var after = Judge.Decide(Zone, Measured(middle + (sign * near), u * 0.0001m), chosen);

        Assert.True(Rank(after.Verdict) >= Rank(before.Verdict));
        Assert.True(after.ConformanceProbability >= before.ConformanceProbability);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_GuardedMet_ImpliesSimpleMet(short value, byte u)
    {
        var measured = Measured((value % 100) * 0.001m, u * 0.0001m);
        if (Judge.Decide(Zone, measured, DecisionRule.FullGuard).Verdict == Verdict.Met)
        {
            Assert.Equal(Verdict.Met, Judge.Decide(Zone, measured, DecisionRule.Unguarded).Verdict);
        }
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_MirroredAboutZero_GivesTheSameVerdict(short value, byte u, byte rule)
    {
        var y = (value % 100) * 0.001m;
        var mirroredZone = ToleranceZone.Between(Mm(-0.05m), Mm(-0.02m));

        var plain = Judge.Decide(Zone, Measured(y, u * 0.0001m), Rule(rule));
        var mirrored = Judge.Decide(mirroredZone, Measured(-y, u * 0.0001m), Rule(rule));

        Assert.Equal(
            (plain.Verdict, plain.Reason, plain.Margin),
            (mirrored.Verdict, mirrored.Reason, mirrored.Margin)
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_InInchesOrMillimetres_GivesTheSameVerdict(
        short ticks,
        byte lower,
        byte width,
        byte rule
    )
    {
        // The same lengths entered as thousandths of an inch and as exact millimetres.
        var zoneInch = ToleranceZone.Between(
            Length.FromInches(lower * 0.0005m),
            Length.FromInches((lower + width) * 0.0005m)
        );
        var zoneMetric = ToleranceZone.Between(Mm(lower * 0.0127m), Mm((lower + width) * 0.0127m));
        var uncertainty = StandardUncertainty.From(Length.FromInches(0.0002m));
        var inch = new MeasuredValue(Length.FromInches((ticks % 300) * 0.0005m), uncertainty);
        var metric = new MeasuredValue(Mm((ticks % 300) * 0.0127m), uncertainty);

        Assert.Equal(
            Judge.Decide(zoneInch, inch, Rule(rule)).Verdict,
            Judge.Decide(zoneMetric, metric, Rule(rule)).Verdict
        );
    }

    private static LengthInterval HalfOpen(decimal lower, decimal upper) =>
        LengthInterval.TryCreate(IntervalEnd.Closed(Mm(lower)), IntervalEnd.Open(Mm(upper)), out var interval)
            ? interval
            : throw new InvalidOperationException("the cases hold no empty interval");

    private static DecisionRule Rule(byte choice) =>
        (choice % 5) switch
        {
            0 => DecisionRule.FullGuard,
            1 => DecisionRule.NinetyFivePercentGuard,
            2 => DecisionRule.Unguarded,
            3 => new DecisionRule.GuardedToRisk(Probability.Of(0.02m)),
            _ => DecisionRule.NinetyFiveToFive,
        };

    private static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => 2,
            Verdict.Unproven => 1,
            _ => 0,
        };

    private static MeasuredValue Measured(decimal value, decimal u) =>
        new(Mm(value), StandardUncertainty.From(Mm(u)));
}
