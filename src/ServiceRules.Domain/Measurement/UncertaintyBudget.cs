using System.Collections.Immutable;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// Independent contributions combined: u = √Σuᵢ² (JCGM 100:2008, 5.1.2 with unit sensitivities), degrees of
/// freedom by Welch-Satterthwaite, ν = u⁴ / Σ(uᵢ⁴/νᵢ) (G.4.1). The order of contributions does not matter.
/// </summary>
public sealed class UncertaintyBudget
{
    private UncertaintyBudget(ImmutableArray<UncertaintyContribution> contributions)
    {
        Contributions = contributions;
        // Summed in order of size: the same contributions in any order give the same bits.
        var ordered = contributions
            .OrderBy(c => c.Millimetres)
            .ThenBy(c => c.DegreesOfFreedom.Reciprocal)
            .ToList();
        var variance = ordered.Sum(c => c.Millimetres * c.Millimetres);
        var reliability = ordered.Sum(c =>
            c.Millimetres * c.Millimetres * c.Millimetres * c.Millimetres * c.DegreesOfFreedom.Reciprocal
        );
        CombinedMillimetres = Math.Sqrt(variance);
        Combined = StandardUncertainty.FromComputed(CombinedMillimetres);
        EffectiveDegreesOfFreedom =
            reliability > 0 ? variance * variance / reliability : double.PositiveInfinity;
        DegreesOfFreedom = reliability > 0 ? DegreesOfFreedom.Of(EffectiveDegreesOfFreedom) : default;
    }

    /// <summary>The lines of the budget, as given.</summary>
    public ImmutableArray<UncertaintyContribution> Contributions { get; }

    /// <summary>The combined standard uncertainty.</summary>
    public StandardUncertainty Combined { get; }

    /// <summary>The effective degrees of freedom of the combined uncertainty.</summary>
    public DegreesOfFreedom DegreesOfFreedom { get; }

    internal double CombinedMillimetres { get; }

    internal double EffectiveDegreesOfFreedom { get; }

    /// <summary>Combines contributions; none at all is an exactly known length.</summary>
    public static UncertaintyBudget Of(params ImmutableArray<UncertaintyContribution> contributions) =>
        new(contributions);
}
