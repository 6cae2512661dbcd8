using System.Collections.Immutable;

namespace ServiceRules.Domain.Geometry;

/// <summary>Sums over positions along the width, which run from -1/2 at the left end to 1/2 at the right end.</summary>
internal static class Positions
{
    public static decimal Mean(ImmutableArray<decimal> positions) => positions.Sum() / positions.Length;

    /// <summary>Each position less their mean.</summary>
    public static ImmutableArray<decimal> Centred(ImmutableArray<decimal> positions)
    {
        var mean = Mean(positions);
        return [.. positions.Select(position => position - mean)];
    }

    public static decimal SumOfSquares(ImmutableArray<decimal> values) => values.Sum(value => value * value);
}
