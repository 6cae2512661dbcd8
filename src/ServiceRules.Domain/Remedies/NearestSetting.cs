using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>The setting that misses the zone by least, for information: it is not a remedy. Where contact is to be avoided it touches nowhere.</summary>
/// <param name="LeftSteps">Net steps on the left; positive opens.</param>
/// <param name="RightSteps">Net steps on the right; positive opens.</param>
/// <param name="Landings">Where every place would land.</param>
/// <param name="Excess">By how much the worst place would still be outside; zero when nothing but the way there stands in the way.</param>
/// <param name="Worst">The place that misses by most; the first from the left among equals.</param>
/// <param name="IsAbove">Whether it would lie above the zone, and not below it.</param>
public sealed record NearestSetting(
    int LeftSteps,
    int RightSteps,
    ImmutableArray<Landing> Landings,
    Length Excess,
    Landing Worst,
    bool IsAbove
)
{
    /// <summary>Every single step in the order to turn it.</summary>
    public ImmutableArray<SingleStep> Sequence { get; init; } = [];

    /// <summary>
    /// Whether another setting would miss by less, but would put out a place that was read and is in: only of what keeps them in is this the
    /// nearest.
    /// </summary>
    public bool KeepsIn { get; init; }
}
