using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>The median: half of the values lie at or below it, half at or above.</summary>
internal static class Middle
{
    /// <summary>The median of ordered lengths, at least one.</summary>
    public static Length Of(ImmutableArray<Length> ordered) =>
        (ordered[(ordered.Length - 1) / 2] + ordered[ordered.Length / 2]) * 0.5m;

    /// <summary>The median of ordered numbers, at least one.</summary>
    public static decimal Of(ImmutableArray<decimal> ordered) =>
        (ordered[(ordered.Length - 1) / 2] + ordered[ordered.Length / 2]) / 2m;
}
