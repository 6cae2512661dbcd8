using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Statistics;

/// <summary>
/// The median: half of the values lie at or below it, half at or above; of an even number the mean of the middle two.
/// </summary>
public static class Median
{
    /// <summary>The median of lengths.</summary>
    /// <param name="lengths">At least one, in any order.</param>
    public static Length Of(IEnumerable<Length> lengths) =>
        Length.FromMillimetres(Of(lengths.Select(length => length.Millimetres)));

    /// <summary>The median of rates of wear.</summary>
    /// <param name="rates">At least one, in any order.</param>
    public static WearRate Of(IEnumerable<WearRate> rates) =>
        WearRate.FromMillimetresPerHour(Of(rates.Select(rate => rate.MillimetresPerHour)));

    /// <summary>The median of numbers, at least one, in any order.</summary>
    internal static decimal Of(IEnumerable<decimal> values) => OfOrdered([.. values.Order()]);

    /// <summary>The median of numbers that stand in order, at least one.</summary>
    internal static decimal OfOrdered(ImmutableArray<decimal> ordered) =>
        ordered.IsEmpty
            ? throw new ArgumentException(
                "of no values there is no median; accepted is one or more",
                nameof(ordered)
            )
            : (ordered[(ordered.Length - 1) / 2] + ordered[ordered.Length / 2]) / 2m;
}
