using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>
/// How far a machine on one area cuts off its bench height, learned from pairs. Its sign is not fixed: published pairs
/// lie on both sides of zero, so no offset is ever assumed. F10: data sourced (S06, S07, S08, S32), method derived.
/// </summary>
public sealed record EffectiveHeightOffset
{
    private const int FewestPairs = 3;

    private EffectiveHeightOffset(Length median, Length least, Length greatest, int pairs)
    {
        Median = median;
        Least = least;
        Greatest = greatest;
        Pairs = pairs;
    }

    /// <summary>The middle offset; of an even number of pairs the mean of the middle two.</summary>
    public Length Median { get; }

    /// <summary>The least (most negative) offset of a pair.</summary>
    public Length Least { get; }

    /// <summary>The greatest offset of a pair.</summary>
    public Length Greatest { get; }

    /// <summary>How many pairs it was learned from.</summary>
    public int Pairs { get; }

    /// <summary>Learns the offset of one machine on one area.</summary>
    /// <param name="pairs">Pairs of one machine, one area and one season.</param>
    /// <returns>Null with fewer than three pairs: nothing is predicted from them.</returns>
    public static EffectiveHeightOffset? Learn(IEnumerable<HeightPair> pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        ImmutableArray<Length> offsets = [.. pairs.Select(pair => pair.Offset).Order()];
        return offsets.Length < FewestPairs
            ? null
            : new(Statistics.Median.Of(offsets), offsets[0], offsets[^1], offsets.Length);
    }

    /// <summary>The bench height to set for a height on the turf.</summary>
    public Length BenchFor(Length effective) => effective - Median;
}
