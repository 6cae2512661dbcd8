using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>How the probability of conformance must behave, whatever is known.</summary>
[Properties(MaxTest = PropertyCases.Each)]
public sealed class ProbabilityPropertyTests
{
    private static readonly ToleranceZone Band = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));

    [Property]
    public void Of_OneSided_FallsAsTheValueRises(short value, byte further, byte u, byte degrees)
    {
        var limit = ToleranceZone.AtMost(Mm(0.05m));
        var near = Measured((value % 200) * 0.001m, u, degrees);
        var far = near with { Value = near.Value + Mm(further * 0.0003m) };

        Assert.True(ConformanceProbability.Of(limit, far) <= ConformanceProbability.Of(limit, near));
    }

    [Property]
    public void Of_TwoSided_RisesTowardTheMiddle(short offset, byte closer, byte u, byte degrees)
    {
        var far = Math.Abs(offset % 100) * 0.001m;
        var near = Math.Max(0m, far - (closer * 0.0003m));
        var middle = Band.Middle!.Value.Millimetres;
        var sign = offset < 0 ? -1 : 1;

        Assert.True(
            ConformanceProbability.Of(Band, Measured(middle + (sign * near), u, degrees))
                >= ConformanceProbability.Of(Band, Measured(middle + (sign * far), u, degrees))
        );
    }

    [Property]
    public void Of_BothSidesOfALimit_AddUpToOne(short value, byte u, byte degrees)
    {
        // What is neither at most nor at least the limit is nothing: the limit itself has no width.
        var measured = Measured((value % 200) * 0.001m, u, degrees) with
        { };
        if (measured.Uncertainty == StandardUncertainty.Zero)
        {
            return;
        }

        var below = ConformanceProbability.Computed(ToleranceZone.AtMost(Mm(0.05m)), measured);
        var above = ConformanceProbability.Computed(ToleranceZone.AtLeast(Mm(0.05m)), measured);

        Assert.Equal(1, below + above, 1e-12);
    }

    [Property]
    public void Of_InsideBelowAndAbove_AddUpToOne(short value, byte u, byte degrees)
    {
        var measured = Measured((value % 200) * 0.001m, (byte)(u | 1), degrees);

        var below = ConformanceProbability.Computed(ToleranceZone.AtMost(Band.Lower!.Value), measured);
        var inside = ConformanceProbability.Computed(Band, measured);
        var above = ConformanceProbability.Computed(ToleranceZone.AtLeast(Band.Upper!.Value), measured);

        Assert.Equal(1, below + inside + above, 1e-12);
        var settled = ConformanceProbability.Of(Band, measured);
        Assert.Equal(1m, settled.Value + settled.Complement.Value);
    }

    [Property]
    public void Of_AnyIntervalByTheUniformModel_LiesWithinWhatIsCertain(sbyte from, byte width, bool open)
    {
        Assert.True(
            LengthInterval.TryCreate(
                new(Mm(from * 0.001m), !open),
                new(Mm((from + width + 1) * 0.001m), true),
                out var interval
            )
        );

        var certain = ConformanceProbability.Of(Band, interval);
        var modelled = ConformanceProbability.Uniform(Band, interval)!.Value;

        Assert.True(certain.Least <= modelled && modelled <= certain.Most);
        Assert.Equal(certain.Least == certain.Most, certain.Settled is not null);
    }

    [Property]
    public void Decide_UnderOneLimitAndHalfTheUncertainty_AgreesForIntervalsOfOneLength(short value)
    {
        // An interval of one length is that length, exactly known.
        var length = Mm((value % 100) * 0.001m);

        Assert.Equal(
            Judge.Decide(Band, MeasuredValue.Exact(length), DecisionRule.FullGuard).Verdict,
            Judge.Decide(Band, LengthInterval.Between(length, length), DecisionRule.FullGuard).Verdict
        );
        Assert.Equal(
            ConformanceProbability.Of(Band, MeasuredValue.Exact(length)),
            ConformanceProbability.Uniform(Band, LengthInterval.Between(length, length))
        );
    }

    [Fact]
    public void Uniform_TheReferenceFeelers_SplitByTheShareInside()
    {
        // feeler-gauges.json: 0.04 enters, 0.05 does not; estimate 0.045, u = 0.01/√12. A limit of 0.0475 keeps 3/4 of it.
        var given = ReferenceCases
            .In("metrology", "feeler-gauges.json", "computed_cases")
            .Named("interval-reading");
        var from = Exact(given.GetProperty("t1_mm"))!.Value;
        var until = Exact(given.GetProperty("t2_mm"))!.Value;
        Assert.True(
            LengthInterval.TryCreate(IntervalEnd.Closed(Mm(from)), IntervalEnd.Open(Mm(until)), out var gap)
        );
        var limit = ToleranceZone.AtMost(Mm(0.0475m));

        Assert.Equal(0.75m, ConformanceProbability.Uniform(limit, gap)!.Value.Value);
        Assert.Equal(new(Probability.Zero, Probability.One), ConformanceProbability.Of(limit, gap));
        Assert.Equal((from + until) / 2, Exact(given.GetProperty("estimate_mm")));
        Assert.Equal(
            given.GetProperty("u_mm").GetDouble(),
            UncertaintyContribution
                .WithinHalfWidth(UncertaintySource.Reading, Mm((until - from) / 2))
                .Millimetres,
            1e-15
        );
        // The verdict inside the interval stays open without the declared model, and with it where 3/4 is not enough.
        Assert.Equal(Verdict.Unproven, Judge.Decide(limit, gap, DecisionRule.NinetyFiveToFive).Verdict);
        var declared = new DecisionRule.ByProbability(Probability.Of(0.7m), Probability.Of(0.05m))
        {
            Intervals = IntervalModel.Uniform,
        };
        var result = Judge.Decide(limit, gap, declared);
        Assert.Equal((Verdict.Met, ConformityReason.ProbablyInside), (result.Verdict, result.Reason));
        Assert.Equal(0.75m, result.ConformanceProbability!.Value.Value);
    }

    [Fact]
    public void Uniform_AnIntervalWithoutAnEnd_HasNoModel()
    {
        var declared = DecisionRule.NinetyFiveToFive with { Intervals = IntervalModel.Uniform };
        var open = LengthInterval.AtLeast(Mm(0.03m));

        Assert.Null(ConformanceProbability.Uniform(Band, open));
        Assert.Equal(ConformityReason.IntervalUnbounded, Judge.Decide(Band, open, declared).Reason);
    }

    [Theory]
    [InlineData(0.0479, 0.0679, Verdict.Unproven)]
    [InlineData(0.0495, 0.0695, Verdict.NotMet)]
    [InlineData(0.0494, 0.0694, Verdict.NotMet)]
    [InlineData(0.0489, 0.0689, Verdict.Unproven)]
    // On a bound itself: 0.019/0.02 = 0.95 and 0.001/0.02 = 0.05.
    [InlineData(0.031, 0.051, Verdict.Met)]
    [InlineData(0.0311, 0.0511, Verdict.Unproven)]
    [InlineData(0.049, 0.069, Verdict.NotMet)]
    public void Decide_ByTheDeclaredModel_TurnsAtTheBounds(decimal from, decimal until, Verdict expected)
    {
        // Share inside 0.05: (0.05 - from)/0.02; 0.0495 gives 0.025, 0.0489 gives 0.055.
        var declared = DecisionRule.NinetyFiveToFive with
        {
            Intervals = IntervalModel.Uniform,
        };

        Assert.Equal(
            expected,
            Judge
                .Decide(
                    ToleranceZone.AtMost(Mm(0.05m)),
                    LengthInterval.Between(Mm(from), Mm(until)),
                    declared
                )
                .Verdict
        );
    }

    private static MeasuredValue Measured(decimal value, byte u, byte degrees) =>
        new(
            Mm(value),
            StandardUncertainty.From(Mm(u * 0.0001m)),
            degrees % 4 == 0 ? DegreesOfFreedom.Infinite : DegreesOfFreedom.Of(degrees)
        );
}
