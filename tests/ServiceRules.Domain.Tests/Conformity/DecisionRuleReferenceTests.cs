using System.Text.Json;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using static ServiceRules.Domain.Tests.ReferenceNumber;
using Judge = ServiceRules.Domain.Conformity.Conformity;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>Outside values: decision-rules.json (ILAC-G8:09/2019, ISO 14253-1:2017), all 19 cases.</summary>
public sealed class DecisionRuleReferenceTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "decision-rules.json", "cases");

    public static TheoryData<string> CaseIds() => Cases.Ids();

    [Fact]
    public void Cases_OfTheReference_AreNineteen() => Assert.Equal(19, Cases.Count);

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Decide_ReferenceCase_GivesItsZoneAndVerdict(string id)
    {
        var given = Cases.Named(id);
        var expected = given.GetProperty("expected");
        var factor = Exact(given.GetProperty("r"))!.Value;
        if (factor < 0)
        {
            // Guarded rejection favours the unit over the proof; the product does not offer it.
            Assert.Throws<ArgumentOutOfRangeException>(() => new DecisionRule.Guarded(factor));
            return;
        }

        var rule = factor == 0 ? DecisionRule.Unguarded : new DecisionRule.Guarded(factor);
        var result = Judge.Decide(Zone(given), Measured(given), rule);

        Assert.Equal(
            expected.GetProperty("iso14253_three_zone").GetString() switch
            {
                "conformity_proven" => Verdict.Met,
                "nonconformity_proven" => Verdict.NotMet,
                _ => Verdict.Unproven,
            },
            result.Verdict
        );
        var empty = expected.GetProperty("empty_acceptance").GetBoolean();
        Assert.Equal(empty, result.AcceptanceZone is null);
        Assert.Equal(empty, result.CannotBeProven);
        if (!empty)
        {
            Assert.Equal(Millimetres(expected.GetProperty("A_L")), result.AcceptanceZone!.Lower);
            Assert.Equal(Millimetres(expected.GetProperty("A_U")), result.AcceptanceZone.Upper);
        }
    }

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Decide_ReferenceCaseWithoutGuard_GivesItsBinaryVerdict(string id)
    {
        var given = Cases.Named(id);
        var result = Judge.Decide(Zone(given), Measured(given), DecisionRule.Unguarded);

        var pass = given.GetProperty("expected").GetProperty("binary_simple").GetString() == "pass";
        Assert.Equal(pass ? Verdict.Met : Verdict.NotMet, result.Verdict);
    }

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Decide_ReferenceCase_GivesItsConformanceProbability(string id)
    {
        var given = Cases.Named(id);
        var result = Judge.Decide(Zone(given), Measured(given), DecisionRule.FullGuard);

        Assert.Equal(
            given.GetProperty("conformance_probability").GetDouble(),
            (double)result.ConformanceProbability!.Value.Value,
            1e-9
        );
    }

    private static ToleranceZone Zone(JsonElement given) =>
        ToleranceZone.TryCreate(
            Millimetres(given.GetProperty("T_L")),
            Millimetres(given.GetProperty("T_U")),
            out var zone
        )
            ? zone
            : throw new InvalidOperationException("the reference has no crossed limits");

    private static MeasuredValue Measured(JsonElement given)
    {
        var u = Length.FromMillimetres(Exact(given.GetProperty("U_k2"))!.Value / 2);
        return new(Millimetres(given.GetProperty("y"))!.Value, StandardUncertainty.From(u));
    }
}
