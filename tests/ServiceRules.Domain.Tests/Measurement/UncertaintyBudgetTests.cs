using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>Outside values: JCGM 100:2008, G.4 and H.1, as collected in gum-welch-satterthwaite.json.</summary>
public sealed class UncertaintyBudgetTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "gum-welch-satterthwaite.json", "cases");

    public static TheoryData<string> Budgets() => Cases.Ids();

    [Theory]
    [MemberData(nameof(Budgets))]
    public void Of_PublishedBudget_GivesItsUncertaintyAndDegreesOfFreedom(string id)
    {
        var published = Cases.Named(id);
        var budget = UncertaintyBudget.Of([
            .. published
                .GetProperty("components")
                .EnumerateArray()
                .Select(c => new UncertaintyContribution(
                    UncertaintySource.Reading,
                    c.GetProperty("u").GetDouble(),
                    Degrees(c.GetProperty("nu"))
                )),
        ]);

        var expected = published.GetProperty("u_c").GetDouble();
        Assert.Equal(1, budget.CombinedMillimetres / expected, 1e-9);
        Assert.Equal(expected, (double)budget.Combined.Value.Millimetres, 1.0001e-7);
        if (published.GetProperty("nu_eff").ValueKind == JsonValueKind.Null)
        {
            Assert.True(budget.DegreesOfFreedom.IsInfinite);
            return;
        }

        Assert.Equal(1, budget.EffectiveDegreesOfFreedom / published.GetProperty("nu_eff").GetDouble(), 1e-9);
        Assert.Equal(published.GetProperty("nu_eff_truncated").GetInt32(), budget.DegreesOfFreedom.Truncated);
        Assert.Equal(
            published.GetProperty("k9545").GetDouble(),
            (double)CoverageFactor.For(budget.DegreesOfFreedom),
            1e-6
        );
    }

    [Fact]
    public void Of_GaugeContributions_AddsInQuadrature()
    {
        // 0.01/√12 = 0.00288675…; 0.006/2 = 0.003; 0.002/√3 = 0.00115470…; 0.004/√4 = 0.002.
        // Squares: 8.3333e-6 + 9e-6 + 1.3333e-6 + 4e-6 = 22.6667e-6; root 0.00476095…
        var budget = UncertaintyBudget.Of(
            UncertaintyContribution.Resolution(Mm(0.01m)),
            UncertaintyContribution.Calibration(Mm(0.006m), 2m),
            UncertaintyContribution.ZeroFarOff(Mm(0.002m)),
            UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Of(9), 4)
        );

        Assert.Equal(Mm(0.0047610m), budget.Combined.Value);
        // ν = 9 · (22.6667/4)² = 289.
        Assert.Equal(289, budget.DegreesOfFreedom.Truncated);
    }

    [Fact]
    public void Of_NoContribution_IsExactlyKnown()
    {
        var budget = UncertaintyBudget.Of();

        Assert.Equal(StandardUncertainty.Zero, budget.Combined);
        Assert.True(budget.DegreesOfFreedom.IsInfinite);
        Assert.Equal(double.PositiveInfinity, budget.EffectiveDegreesOfFreedom);
    }

    [Fact]
    public void Of_ManySmallLinesBesideALarge_LosesNoneOfThem()
    {
        // 1 + 1000·(1e-8)² = 1 + 1e-13, root 1 + 5e-14; each alone would vanish beside the 1.
        var small = new UncertaintyContribution(UncertaintySource.Reading, 1e-8, default);
        var large = new UncertaintyContribution(UncertaintySource.Reading, 1, default);

        var budget = UncertaintyBudget.Of([large, .. Enumerable.Repeat(small, 1000)]);

        Assert.Equal(1 + 5e-14, budget.CombinedMillimetres, 1e-15);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Of_AnyOrder_GivesTheSameBits(ushort[] parts)
    {
        UncertaintyContribution[] forward =
        [
            .. parts.Select(p => new UncertaintyContribution(
                UncertaintySource.Reading,
                p / 7919.0,
                DegreesOfFreedom.Of((p % 13) + 1)
            )),
        ];

        var first = UncertaintyBudget.Of([.. forward]);
        var second = UncertaintyBudget.Of([.. forward.Reverse()]);

        Assert.Equal(first.CombinedMillimetres, second.CombinedMillimetres);
        Assert.Equal(first.DegreesOfFreedom, second.DegreesOfFreedom);
    }

    [Theory]
    [InlineData(0.003, 0.003)]
    [InlineData(0.00300000001, 0.0030001)]
    [InlineData(0, 0)]
    public void FromComputed_AnyValue_RoundsUpToATenthOfANanometre(double computed, decimal expected) =>
        Assert.Equal(Mm(expected), StandardUncertainty.FromComputed(computed).Value);

    [Fact]
    public void From_NegativeLength_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardUncertainty.From(Mm(-0.001m)));

    [Fact]
    public void ShiftedBy_AnUncertainMovement_AddsItAsARectangle()
    {
        // √(0.003² + (0.004/√3)²) = √(9e-6 + 5.33333e-6) = 0.00378593…
        var measured = new MeasuredValue(Mm(0.05m), StandardUncertainty.From(Mm(0.003m)));

        var shifted = Assert.IsType<MeasuredValue>(measured.ShiftedBy(Mm(-0.0127m), Mm(0.004m)));

        Assert.Equal(Mm(0.0373m), shifted.Value);
        Assert.Equal(Mm(0.0037860m), shifted.Uncertainty.Value);
    }

    private static DegreesOfFreedom Degrees(JsonElement value) =>
        value.ValueKind == JsonValueKind.Null
            ? DegreesOfFreedom.Infinite
            : DegreesOfFreedom.Of(value.GetDouble());
}
