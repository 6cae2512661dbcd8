using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>The largest minus the smallest of several values that are weighted sums of the same readings.</summary>
internal static class KnownRange
{
    /// <summary>
    /// For measured readings: the difference of the two extreme values with the uncertainty of that
    /// difference; where several pairs tie, the largest uncertainty of them.
    /// </summary>
    public static MeasuredValue Of(
        ImmutableArray<LinearForm> values,
        ImmutableArray<MeasuredValue> readings,
        ImmutableArray<SharedError> shared,
        Misfit misfit
    )
    {
        var estimates = values.Select(v => v.Estimate(readings)).ToImmutableArray();
        var (least, greatest) = (estimates.Min(), estimates.Max());
        var differences =
            from high in Enumerable.Range(0, values.Length)
            where estimates[high] == greatest
            from low in Enumerable.Range(0, values.Length)
            where estimates[low] == least && low != high
            select values[high].Minus(values[low]).Apply(readings, shared, misfit);
        return differences.MaxBy(d => d.Expanded.Value)!;
    }

    /// <summary>For intervals: all ranges they admit.</summary>
    public static LengthInterval Of(
        ImmutableArray<LinearForm> values,
        ImmutableArray<LengthInterval> readings
    ) => Of([.. values.Select(value => ImmutableArray.Create(value))], readings);

    /// <summary>For intervals: all ranges they admit, each value being any between the forms that it may have.</summary>
    public static LengthInterval Of(
        ImmutableArray<ImmutableArray<LinearForm>> values,
        ImmutableArray<LengthInterval> readings
    )
    {
        var differences = (
            from high in Enumerable.Range(0, values.Length)
            from low in Enumerable.Range(0, values.Length)
            where low != high
            select Difference(values[high], values[low], readings)
        ).ToImmutableArray();

        IntervalEnd? lower = IntervalEnd.Closed(Length.Zero);
        foreach (var end in differences.Select(d => d.Lower).OfType<IntervalEnd>())
        {
            if (end.Value > lower.Value.Value || (end.Value == lower.Value.Value && !end.IsClosed))
            {
                lower = end;
            }
        }

        IntervalEnd? upper = differences.Any(d => d.Upper is null)
            ? null
            : differences.Select(d => d.Upper!.Value).MaxBy(end => (end.Value, end.IsClosed));
        return LengthInterval.TryCreate(lower, upper, out var interval)
            ? interval
            : throw new InvalidOperationException("a range over non-empty intervals is not empty");
    }

    private static LengthInterval Difference(
        ImmutableArray<LinearForm> high,
        ImmutableArray<LinearForm> low,
        ImmutableArray<LengthInterval> readings
    ) =>
        (from above in high from below in low select above.Minus(below).Apply(readings)).Aggregate(
            (known, other) => known.Hull(other)
        );
}
