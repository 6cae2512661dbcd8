using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;
using ServiceRules.TestKit;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>
/// Outside values: guard bands, quantiles, posteriors and the speed example of jcgm106-conformity.json (JCGM 106:2012, 7 and 8).
/// </summary>
public sealed class TargetRiskTests
{
    private static JsonElement Reference { get; } =
        JsonDocument.Parse(ReferenceFiles.ReadText("metrology", "jcgm106-conformity.json")).RootElement;

    [Fact]
    public void Decide_GuardedToEveryTargetRisk_GuardsByTheReferenceWidth()
    {
        foreach (var row in Reference.GetProperty("guard_band_for_target_risk").EnumerateArray())
        {
            var risk = Probability.Of(row.GetProperty("max_specific_risk").GetDecimal());
            // A limit far below zero: one tail alone counts.
            var result = Judge.Decide(ToleranceZone.AtMost(Mm(0m)), Measured(-10m, 1m), To(risk));

            // The risk of the table is rounded to a billionth before use, which moves a quantile by 2e-8 at most.
            Near(row.GetProperty("w_over_u").GetDecimal(), result.Guard!.Value.Millimetres, 1.3e-7m);
        }
    }

    [Fact]
    public void Of_EveryMultipleOfTheGuardTable_HasTheReferenceProbabilityAtTheAcceptanceLimit()
    {
        foreach (var row in Reference.GetProperty("guard_band_r_table").EnumerateArray())
        {
            var guard = row.GetProperty("w_over_u").GetDecimal();
            var probability = ConformanceProbability.Computed(
                ToleranceZone.AtMost(Mm(0m)),
                Measured(-guard, 1m)
            );

            Assert.Equal(row.GetProperty("p_conform_at_acceptance_limit").GetDouble(), probability, 1e-12);
        }
    }

    /// <summary>Outside values: the guard-band table of decision-rules.json (ILAC-G8:09/2019), to its far tails.</summary>
    [Fact]
    public void Computed_EveryRowOfTheGuardBandTable_HasItsLargestRisk()
    {
        foreach (var row in ReferenceCases.In("metrology", "decision-rules.json", "guard_band_table"))
        {
            var guard = 2 * row.GetProperty("w_over_U").GetDecimal();
            // What lies beyond the limit, as the other side of it: no difference from one is taken.
            var beyond = ConformanceProbability.Computed(ToleranceZone.AtLeast(Mm(0m)), Measured(-guard, 1m));

            Assert.Equal(
                1,
                beyond / row.GetProperty("computed_max_specific_risk_one_tail_k2").GetDouble(),
                1e-9
            );
        }
    }

    [Fact]
    public void Decide_ByProbabilityAtEveryTabulatedLevel_TurnsAtTheReferenceQuantile()
    {
        foreach (var row in Reference.GetProperty("one_sided_z_table").GetProperty("rows").EnumerateArray())
        {
            var rule = new DecisionRule.ByProbability(
                Probability.Of(row.GetProperty("p_c").GetDecimal()),
                Probability.Zero
            );
            var z = row.GetProperty("z").GetDecimal();
            var zone = ToleranceZone.AtMost(Mm(0m));

            Assert.Equal(Verdict.Met, Judge.Decide(zone, Measured(-(z + 1e-6m), 1m), rule).Verdict);
            Assert.Equal(Verdict.Unproven, Judge.Decide(zone, Measured(-(z - 1e-6m), 1m), rule).Verdict);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Of_PosteriorKnowledge_HasTheReferenceProbability(int row)
    {
        var given = Reference.GetProperty("prior_to_posterior_cases")[row];
        var zone = ToleranceZone.Between(
            Mm(given.GetProperty("T_L").GetDecimal()),
            Mm(given.GetProperty("T_U").GetDecimal())
        );
        var mean = Mm(given.GetProperty("posterior_mean").GetDecimal());
        var deviation = given.GetProperty("posterior_sd").GetDecimal();

        // u is held in whole 1e-7 mm, rounded up: the reference's digits beyond move the probability by 1e-6 at most.
        var posterior = ConformanceProbability.Computed(
            zone,
            new(mean, StandardUncertainty.From(Mm(deviation)))
        );
        Assert.Equal(given.GetProperty("conformance_probability").GetDouble(), posterior, 1.5e-5);
        var plain = ConformanceProbability.Computed(
            zone,
            Measured(given.GetProperty("y_m").GetDecimal(), given.GetProperty("u_m").GetDecimal())
        );
        Assert.Equal(given.GetProperty("conformance_probability_ignoring_prior").GetDouble(), plain, 1e-12);
    }

    [Fact]
    public void Decide_TheSpeedExample_IsBeyondDoubtFromTheReferenceValueOn()
    {
        var given = Reference.GetProperty("guarded_rejection_case");
        var speed = Math.Round(given.GetProperty("v_max").GetDecimal(), 9);
        var limit = ToleranceZone.AtMost(Mm(100m));
        var rule = new DecisionRule.GuardedToRisk(Probability.Of(0.001m));

        // u is 2 % of the value itself.
        Assert.Equal(
            Verdict.NotMet,
            Judge.Decide(limit, Measured(speed + 0.0001m, 0.02m * speed), rule).Verdict
        );
        Assert.Equal(
            Verdict.Unproven,
            Judge.Decide(limit, Measured(speed - 0.0001m, 0.02m * speed), rule).Verdict
        );
    }

    [Fact]
    public void Decide_FewDegreesOfFreedom_GuardsByStudentsQuantile()
    {
        // t at 95 % one-sided for 5 degrees of freedom: 2.015048373333 (JCGM 100, Table G.2, 90 % two-sided).
        var measured = new MeasuredValue(Mm(-10m), StandardUncertainty.From(Mm(1m)), DegreesOfFreedom.Of(5));

        var result = Judge.Decide(ToleranceZone.AtMost(Mm(0m)), measured, To(Probability.Of(0.05m)));

        Assert.Equal(Mm(2.0150484m), result.Guard);
        Assert.Equal(Mm(-2.0150484m), result.AcceptanceZone!.Upper);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.500000001)]
    public void GuardedToRisk_NoRiskOrMoreThanEven_IsRefused(decimal risk) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => To(Probability.Of(risk)));

    [Fact]
    public void Judge_ToATargetRisk_AllowsTheReferenceUncertainty()
    {
        // 0.015/1.644853627·2 = 0.0182387…
        var band = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));
        var fitness = GaugeFitness.Judge(
            band,
            new MeasuredValue(Mm(0m), StandardUncertainty.From(Mm(0.009m))).Errors,
            To(Probability.Of(0.05m)),
            null,
            null
        );

        Assert.Equal(Mm(0.0182387m), fitness.CoarsestExpanded);
        Assert.Equal(
            GaugeFitnessOutcome.Fit,
            GaugeFitness
                .Judge(
                    band,
                    new MeasuredValue(Mm(0m), StandardUncertainty.From(Mm(1m))).Errors,
                    To(Probability.Of(0.5m)),
                    null,
                    null
                )
                .Outcome
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_MoreUncertainty_NeverProvesMore(short value, byte fine, byte extra, byte risk)
    {
        var zone = ToleranceZone.Between(Mm(0.02m), Mm(0.05m));
        var rule = To(Probability.Of((risk + 1) / 600m));
        var y = (value % 100) * 0.001m;
        var sharper = Judge.Decide(zone, Measured(y, fine * 0.0001m), rule).Verdict;
        var coarser = Judge.Decide(zone, Measured(y, (fine + extra) * 0.0001m), rule).Verdict;

        Assert.True(coarser == sharper || coarser == Verdict.Unproven);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_MetUnderATargetRisk_IsMetWithoutAGuardAndKeepsTheRisk(short value, byte u, byte risk)
    {
        var zone = ToleranceZone.AtMost(Mm(0.05m));
        var target = Probability.Of((risk + 1) / 600m);
        var measured = Measured((value % 100) * 0.001m, (u + 1) * 0.0001m);
        if (Judge.Decide(zone, measured, To(target)) is { Verdict: Verdict.Met } result)
        {
            Assert.Equal(Verdict.Met, Judge.Decide(zone, measured, DecisionRule.Unguarded).Verdict);
            Assert.True(result.ConformanceProbability!.Value.Complement <= target);
        }
    }

    private static DecisionRule.GuardedToRisk To(Probability risk) => new(risk);

    private static MeasuredValue Measured(decimal value, decimal u) =>
        new(Mm(value), StandardUncertainty.From(Mm(u)));
}
