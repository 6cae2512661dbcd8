using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>Readings made ready for a line.</summary>
internal static class WearReadings
{
    /// <summary>In order of hours, one for each: readings at the same hours count as one, their mean.</summary>
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
                )),
        ];
}
