using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>What errors that are little known, beside others that are well known, may prove.</summary>
public sealed class LittleKnownErrorsTests
{
    private static readonly ToleranceZone Ceiling = ToleranceZone.AtMost(Mm(4m));

    [Theory]
    // 13.967730199245 · 0.010 = 0.1397 by the study alone; by k(ν)·u of all errors 0.080, 0.041 and 0.047.
    [InlineData(0.005, 0.139, Verdict.Unproven)]
    [InlineData(0.010, 0.139, Verdict.Unproven)]
    [InlineData(0.020, 0.139, Verdict.Unproven)]
    [InlineData(0.020, 0.1397, Verdict.Met)]
    // 2.000·√(0.1² + 0.01²) = 0.201 is more.
    [InlineData(0.100, 0.1397, Verdict.Unproven)]
    public void Decide_AWorseCertificateBesideTwoReadings_ProvesNoMore(
        double u,
        double below,
        Verdict expected
    )
    {
        var measured = UncertaintyBudget
            .Of(
                UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
                UncertaintyContribution.Calibration(Mm((decimal)u * 2), 2m)
            )
            .Around(Mm(4m - (decimal)below));

        Assert.Equal(expected, Judge.Decide(Ceiling, measured, DecisionRule.FullGuard).Verdict);
    }

    [Fact]
    public void Within_TwoReadingsBesideACertificate_GoesOverBothAndAll()
    {
        // 0.02 below the limit. Of the study by itself, on one degree, 1/2 + atan(2)/π = 0.852416382; of the certificate, taken as
        // known, Φ(2) = 0.977249868; of both together between them.
        var measured = UncertaintyBudget
            .Of(
                UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
                UncertaintyContribution.Calibration(Mm(0.020m), 2m)
            )
            .Around(Mm(3.98m));

        var range = ConformanceProbability.Within(Ceiling, measured);

        Assert.Equal(0.852416382m, range.Least.Value);
        Assert.Equal(0.977249868m, range.Most.Value);
        Assert.InRange(
            ConformanceProbability.Of(Ceiling, measured).Value,
            range.Least.Value,
            range.Most.Value
        );
    }

    /// <summary>Under every rule that takes account of uncertainty, against one limit and, but for probabilities, two.</summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Decide_OneMoreError_NeverTurnsUnprovenIntoMetOrNotMet(
        short offset,
        (byte Size, byte Degrees)[] lines,
        byte more,
        byte third
    )
    {
        var at = Mm(4m + (offset % 4000 * 0.0001m));
        UncertaintyContribution[] few = [.. lines.Take(4).Select(line => Line(line.Size, line.Degrees))];
        var before = UncertaintyBudget.Of([.. few]).Around(at);
        var after = UncertaintyBudget.Of([.. few, Line(more, third)]).Around(at);
        var band = ToleranceZone.Between(Mm(3.9m), Mm(4m));

        foreach (
            var (zone, rule) in new (ToleranceZone, DecisionRule)[]
            {
                (Ceiling, DecisionRule.FullGuard),
                (band, DecisionRule.FullGuard),
                (band, DecisionRule.NinetyFivePercentGuard),
                (band, new DecisionRule.GuardedToRisk(Probability.Of(0.05m))),
                (Ceiling, DecisionRule.NinetyFiveToFive),
            }
        )
        {
            var (was, became) = (Judge.Decide(zone, before, rule), Judge.Decide(zone, after, rule));

            Assert.True(
                became.Verdict == was.Verdict || became.Verdict is Verdict.Unproven,
                $"{rule}: {was.Verdict} by {was.Guard} became {became.Verdict} by {became.Guard}"
            );
        }
    }

    // Up to 0.07 mm; one in three taken as known, the others on 1 to 9.
    private static UncertaintyContribution Line(byte size, byte degrees) =>
        new(
            UncertaintySource.Reading,
            size * size * 1e-6,
            degrees % 3 == 0 ? DegreesOfFreedom.Infinite : DegreesOfFreedom.Of(1 + (degrees / 3 % 9))
        );
}
