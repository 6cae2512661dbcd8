using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.TestKit;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>Outside values: jcgm106-conformity.json (JCGM 106:2012, 9.5), five normal cases and the gamma case.</summary>
public sealed class GlobalRiskTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "jcgm106-conformity.json", "global_risk_cases");

    private static JsonElement Bearings { get; } =
        JsonDocument
            .Parse(ReferenceFiles.ReadText("metrology", "jcgm106-conformity.json"))
            .RootElement.GetProperty("gamma_prior_case");

    public static TheoryData<string> CaseIds() => Cases.Ids();

    [Fact]
    public void Cases_OfTheReference_AreFive() => Assert.Equal(5, Cases.Count);

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Of_NormalProcess_GivesTheReferenceRisks(string id)
    {
        var given = Cases.Named(id);
        var prior = given.GetProperty("prior");

        var risk = GlobalRisk.Of(
            Zone(given, "T_L", "T_U"),
            Zone(given, "A_L", "A_U"),
            ProcessSpread.Normal(
                Millimetres(prior.GetProperty("mean"))!.Value,
                Millimetres(prior.GetProperty("sd"))!.Value
            ),
            StandardUncertainty.From(Millimetres(given.GetProperty("u_m"))!.Value)
        );

        Agrees(given, "process_conformance_probability", risk.InLimits);
        Agrees(given, "global_consumers_risk_R_C", risk.Consumers);
        Agrees(given, "global_producers_risk_R_P", risk.Producers);
        Agrees(given, "accepted_fraction", risk.Accepted);
        Agrees(given, "conditional_false_accept_given_accepted", risk.OutAmongAccepted);
    }

    [Theory]
    [InlineData("simple_acceptance_A_U_2.0", 2.0)]
    [InlineData("acceptance_limit_for_R_C_0.001", 1.671828772)]
    [InlineData("A_U_1.7", 1.7)]
    [InlineData("A_U_1.8", 1.8)]
    public void Of_GammaProcess_GivesTheReferenceRisks(string row, decimal acceptance)
    {
        // The reference is in micrometres; the numbers stand here as millimetres.
        var risk = GlobalRisk.Of(
            ToleranceZone.AtMost(Mm(2m)),
            ToleranceZone.AtMost(Mm(acceptance)),
            ProcessSpread.Gamma(Mm(1m), Mm(0.5m)),
            StandardUncertainty.From(Mm(0.25m))
        );

        var expected = Bearings.GetProperty(row);
        Assert.Equal(
            1 - Bearings.GetProperty("nonconforming_fraction_before_inspection").GetDouble(),
            (double)risk.InLimits.Value,
            1.5e-9
        );
        Agrees(expected, "R_P", risk.Producers);
        if (expected.TryGetProperty("R_C", out _))
        {
            Agrees(expected, "R_C", risk.Consumers);
        }
        else
        {
            Assert.Equal(0.001, (double)risk.Consumers.Value, 1.5e-9);
        }
    }

    [Fact]
    public void Of_AnExactGauge_NeverErrsWithoutAGuard()
    {
        var limits = ToleranceZone.Between(Mm(-1m), Mm(1m));

        var risk = GlobalRisk.Of(
            limits,
            limits,
            ProcessSpread.Normal(Mm(0m), Mm(1m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(Probability.Zero, risk.Consumers);
        Assert.Equal(Probability.Zero, risk.Producers);
        // 2Φ(1) - 1.
        Assert.Equal(0.682689492m, risk.Accepted.Value);
    }

    [Fact]
    public void Of_AFlatGammaDensityAtZero_StillAddsUp()
    {
        // Shape 1: exponential with mean 1, exact gauge, limit 2, accepted up to 1: refused though in, e⁻¹ - e⁻².
        var risk = GlobalRisk.Of(
            ToleranceZone.AtMost(Mm(2m)),
            ToleranceZone.AtMost(Mm(1m)),
            ProcessSpread.Gamma(Mm(1m), Mm(1m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(Math.Exp(-1) - Math.Exp(-2), (double)risk.Producers.Value, 1e-9);
        Assert.Equal(1 - Math.Exp(-2), (double)risk.InLimits.Value, 1e-9);
    }

    [Fact]
    public void Of_NothingAccepted_HasNothingOutAmongIt()
    {
        var limits = ToleranceZone.AtLeast(Mm(100m));

        var risk = GlobalRisk.Of(
            limits,
            limits,
            ProcessSpread.Normal(Mm(0m), Mm(1m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(Probability.Zero, risk.Accepted);
        Assert.Equal(Probability.Zero, risk.OutAmongAccepted);
    }

    [Fact]
    public void Of_AWideProcess_CountsBothOfItsSides()
    {
        // Deviation 10, refused from -20 to -10: Φ(2) - Φ(1).
        var risk = GlobalRisk.Of(
            ToleranceZone.Between(Mm(-20m), Mm(20m)),
            ToleranceZone.Between(Mm(-10m), Mm(20m)),
            ProcessSpread.Normal(Mm(0m), Mm(10m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(0.135905121983278, (double)risk.Producers.Value, 1.5e-9);
    }

    [Fact]
    public void Of_AGaugeMuchFinerThanTheProcess_IsSeenAtTheLimit()
    {
        // Limit at the mean: the true value on one side and the reading on the other has the orthant probability of two
        // normal values, atan(u/σ)/2π.
        var limits = ToleranceZone.AtMost(Mm(0m));

        var risk = GlobalRisk.Of(
            limits,
            limits,
            ProcessSpread.Normal(Mm(0m), Mm(1m)),
            StandardUncertainty.From(Mm(0.001m))
        );

        Assert.Equal(0.000159154890040, (double)risk.Consumers.Value, 1.5e-9);
        Assert.Equal(0.000159154890040, (double)risk.Producers.Value, 1.5e-9);
    }

    [Fact]
    public void Of_ADensityThatStartsLikeARoot_IsCountedFromZero()
    {
        // Shape 1.5, rate 1, half of chi-square on 3 degrees of freedom: up to 1 erf(1) - 2/√π·e⁻¹, up to 2
        // erf(√2) - 2·√(2/π)·e⁻².
        var risk = GlobalRisk.Of(
            ToleranceZone.Between(Mm(-1m), Mm(2m)),
            ToleranceZone.AtLeast(Mm(1m)),
            ProcessSpread.Gamma(Mm(1.5m), Mm(1.224744871391589049098642037m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(0.42759329552912, (double)risk.Producers.Value, 1.5e-9);
        Assert.Equal(0.738535870050889, (double)risk.InLimits.Value, 1.5e-9);
        Assert.Equal(1 - 0.738535870050889, (double)risk.Consumers.Value, 1.5e-9);
    }

    [Fact]
    public void Of_AnExponentialProcess_CountsItsFarTail()
    {
        // Mean 10, accepted from 130 on though at most 120 is in: e⁻¹³.
        var risk = GlobalRisk.Of(
            ToleranceZone.AtMost(Mm(120m)),
            ToleranceZone.AtLeast(Mm(130m)),
            ProcessSpread.Gamma(Mm(10m), Mm(10m)),
            StandardUncertainty.Zero
        );

        Assert.Equal(2.26032940698105e-6, (double)risk.Consumers.Value, 1e-9);
    }

    [Theory]
    // A gamma distribution of whole shape k and rate 1 lies below x as often as a Poisson count of mean x reaches k:
    // k = 10000, x = 10200; k = 100, x = 120; in hundredths of a millimetre as on a bench and a thousand times as large.
    [InlineData(1, 0.01, 1.02, 0.976712677866401)]
    [InlineData(0.05, 0.005, 0.06, 0.972136260109479)]
    [InlineData(50, 5, 60, 0.972136260109479)]
    [InlineData(500, 50, 600, 0.972136260109479)]
    public void Of_ANarrowGammaProcess_IsCountedInAnyUnit(
        decimal mean,
        decimal deviation,
        decimal limit,
        double expected
    )
    {
        var risk = GlobalRisk.Of(
            ToleranceZone.AtMost(Mm(limit)),
            ToleranceZone.AtLeast(Mm(limit)),
            ProcessSpread.Gamma(Mm(mean), Mm(deviation)),
            StandardUncertainty.Zero
        );

        Assert.Equal(expected, (double)risk.InLimits.Value, 1.5e-9);
        Assert.Equal(expected, (double)risk.Producers.Value, 1.5e-9);
        Assert.Equal(1 - expected, (double)risk.Consumers.Value, 1.5e-9);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Of_AWiderGuard_TradesTheConsumersRiskForTheProducers(
        byte mean,
        byte deviation,
        byte u,
        byte guard
    )
    {
        var limits = ToleranceZone.Between(Mm(0m), Mm(1m));
        var process = ProcessSpread.Normal(Mm(mean / 255m), Mm((deviation + 1) / 255m));
        var gauge = StandardUncertainty.From(Mm((u + 1) / 2000m));

        var simple = GlobalRisk.Of(limits, limits, process, gauge);
        var guarded = GlobalRisk.Of(limits, limits.DrawnIn(Mm(guard / 600m))!, process, gauge);

        Assert.True(guarded.Consumers <= simple.Consumers);
        Assert.True(guarded.Producers >= simple.Producers);
        Assert.True(guarded.Consumers.Value + guarded.InLimits.Value <= 1.000000002m);
    }

    [Fact]
    public void FromReadings_TenReadings_GivesTheirMeanAndDeviation()
    {
        // 1 to 10: mean 5.5, Σd² = 82.5, s = √(82.5/9) = 3.027650354; each follows the one before it (r = 0.7).
        List<Length> rising = [.. Enumerable.Range(1, 10).Select(i => Mm(i))];

        var spread = ProcessSpread.FromReadings(rising, naturalBound: null)!;

        Assert.Equal((Mm(5.5m), Mm(3.027650354m)), (spread.Mean, spread.StandardDeviation));
        Assert.Equal(10, spread.Readings);
        Assert.False(spread.IsGamma);
        Assert.True(spread.Drifts);
        Assert.Null(ProcessSpread.FromReadings(rising[..9], naturalBound: null));
        Assert.Null(ProcessSpread.FromReadings([.. Enumerable.Repeat(Mm(3m), 12)], naturalBound: null));
    }

    [Fact]
    public void FromReadings_WhatCannotFallBelowZero_IsGammaWhereItsDeviationAllows()
    {
        List<Length> near = [.. Enumerable.Range(0, 20).Select(i => Mm(i % 2 == 0 ? 0.9m : 1.1m))];
        List<Length> wild = [.. Enumerable.Range(0, 20).Select(i => Mm(i == 7 ? 9m : 0.1m))];

        var spread = ProcessSpread.FromReadings(near, Mm(0m))!;
        Assert.True(spread.IsGamma);
        // Alternating values answer one another: autocorrelation near -1.
        Assert.True(spread.Drifts);
        Assert.False(ProcessSpread.FromReadings(wild, Mm(0m))!.IsGamma);
        Assert.False(ProcessSpread.FromReadings(wild, Mm(0m))!.Drifts);
        Assert.False(ProcessSpread.FromReadings(near, Mm(0.5m))!.IsGamma);
    }

    [Fact]
    public void FromReadings_DeviationAsLargeAsTheMean_IsStillGamma()
    {
        // Eight of 0, eight of 2 and one of 1: mean 1, s = √(16/16).
        List<Length> readings = [.. Enumerable.Range(0, 17).Select(i => Mm(i == 16 ? 1m : i % 2 * 2m))];

        var spread = ProcessSpread.FromReadings(readings, Mm(0m))!;

        Assert.Equal((Mm(1m), Mm(1m)), (spread.Mean, spread.StandardDeviation));
        Assert.True(spread.IsGamma);
    }

    [Fact]
    public void Declared_WithoutSpreadOrWiderThanItsMean_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ProcessSpread.Normal(Mm(1m), Mm(0m)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProcessSpread.Gamma(Mm(1m), Mm(0m)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProcessSpread.Gamma(Mm(1m), Mm(1.01m)));
        Assert.Null(ProcessSpread.Normal(Mm(1m), Mm(1m)).Readings);
    }

    private static void Agrees(JsonElement given, string member, Probability actual) =>
        // 1e-9 as the reference asks, and half of the billionth to which probabilities are rounded.
        Assert.Equal(given.GetProperty(member).GetDouble(), (double)actual.Value, 1.5e-9);

    private static ToleranceZone Zone(JsonElement given, string lower, string upper) =>
        ToleranceZone.TryCreate(
            Millimetres(given.GetProperty(lower)),
            Millimetres(given.GetProperty(upper)),
            out var zone
        )
            ? zone
            : throw new InvalidOperationException("the reference has no crossed limits");
}
