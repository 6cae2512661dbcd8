using System.Text.Json;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>Outside values: jcgm106-conformity.json (JCGM 106:2012, clause 7).</summary>
public sealed class ConformanceProbabilityTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "jcgm106-conformity.json", "specific_cases");

    public static TheoryData<string> CaseIds() => Cases.Ids();

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Computed_SpecificCase_AgreesToTwelveDecimals(string id)
    {
        var given = Cases.Named(id);
        var inputs = given.GetProperty("inputs");
        Assert.True(
            ToleranceZone.TryCreate(
                Millimetres(inputs.GetProperty("T_L")),
                Millimetres(inputs.GetProperty("T_U")),
                out var zone
            )
        );
        var measured = new MeasuredValue(
            Millimetres(inputs.GetProperty("y"))!.Value,
            StandardUncertainty.From(Millimetres(inputs.GetProperty("u"))!.Value)
        );

        var expected = given.GetProperty("conformance_probability").GetDouble();
        Assert.Equal(expected, ConformanceProbability.Computed(zone, measured), 1e-12);
        Assert.Equal(expected, (double)ConformanceProbability.Of(zone, measured).Value, 1e-9);
    }

    [Fact]
    public void Computed_FarTail_KeepsItsRelativeAccuracy()
    {
        // Φ(-6) = 9.865876450376946e-10 (guard-band table of the same reference, r = 3).
        var measured = new MeasuredValue(Mm(0.056m), StandardUncertainty.From(Mm(0.001m)));

        var above = ConformanceProbability.Computed(ToleranceZone.AtMost(Mm(0.050m)), measured);
        var below = ConformanceProbability.Computed(ToleranceZone.AtLeast(Mm(0.062m)), measured);

        Assert.Equal(1, above / 9.865876450376946e-10, 1e-9);
        Assert.Equal(1, below / 9.865876450376946e-10, 1e-9);
    }

    [Theory]
    // Φ(2) - Φ(1) on either side of a zone one u wide, Φ(0.5) - Φ(-0.5) in its middle (NIST/SEMATECH e-Handbook, 1.3.6.7.1).
    [InlineData(2, 0.1359051219832779)]
    [InlineData(-1, 0.1359051219832779)]
    [InlineData(0.5, 0.3829249225480262)]
    // On either limit: Φ(1) - Φ(0).
    [InlineData(0, 0.3413447460685429)]
    [InlineData(1, 0.3413447460685429)]
    public void Computed_ZoneOneDeviationWide_IsTheDifferenceOfTheTails(decimal value, double expected) =>
        Assert.Equal(
            expected,
            ConformanceProbability.Computed(
                ToleranceZone.Between(Mm(0m), Mm(1m)),
                new MeasuredValue(Mm(value), StandardUncertainty.From(Mm(1m)))
            ),
            1e-14
        );

    [Fact]
    public void Of_GuardLengthInsideALimit_IsTheLevelOfTheCoverageFactorForAnyDegreesOfFreedom()
    {
        // One tail of 95.45 %: 0.977249868 (JCGM 106 guard-band table, r = 1), by definition for every ν.
        foreach (var n in new[] { 1, 2, 5, 30, 100 })
        {
            var degreesOfFreedom = DegreesOfFreedom.Of(n);
            var measured = new MeasuredValue(
                Mm(-CoverageFactor.For(degreesOfFreedom)),
                StandardUncertainty.From(Mm(1m)),
                degreesOfFreedom
            );
            var probability = ConformanceProbability.Of(ToleranceZone.AtMost(Mm(0m)), measured);
            Assert.Equal(0.977249868m, probability.Value, 8);
        }
    }

    [Theory]
    [InlineData(0.05, 1)]
    [InlineData(0.0500001, 0)]
    public void Of_ExactlyKnownValue_IsCertain(decimal value, decimal expected) =>
        Assert.Equal(
            expected,
            ConformanceProbability.Of(ToleranceZone.AtMost(Mm(0.05m)), MeasuredValue.Exact(Mm(value))).Value
        );
}
