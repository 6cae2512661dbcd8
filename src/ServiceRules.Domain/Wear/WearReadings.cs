using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>Readings made ready for a line.</summary>
internal static class WearReadings
{
    // Weekly readings of six years; every pair of them is compared.
    private const int Most = 300;

    /// <summary>In order of hours, one for each: readings at the same hours count as one, their mean; of more than 300 the last.</summary>
    public static ImmutableArray<WearPoint> ByHours(IEnumerable<WearPoint> points) =>
        [
            .. points
                .GroupBy(point => point.At)
                .OrderBy(group => group.Key)
                .Select(group => new WearPoint(
                    group.Key,
                    Length.FromMillimetres(
                        group.Select(point => point.Value.Millimetres).Order().Sum() / group.Count()
                    )
                ))
                .TakeLast(Most),
        ];
}
