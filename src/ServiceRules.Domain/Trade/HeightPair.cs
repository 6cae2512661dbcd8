using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>One height set on the bench with what was then read on the turf.</summary>
/// <param name="Bench">Height of cut on the bench gauge.</param>
/// <param name="Effective">Height read on the turf with a prism.</param>
public sealed record HeightPair(Length Bench, Length Effective)
{
    private static readonly Length PrismFloor = Length.FromInches(0.120m);

    /// <summary>Effective minus bench height: below zero where the unit cuts lower than it was set.</summary>
    public Length Offset => Effective - Bench;

    /// <summary>Whether the turf reading is at or below 0.120 in, where prism readings cannot be relied on (S06).</summary>
    public bool IsBelowPrism => Effective <= PrismFloor;
}
