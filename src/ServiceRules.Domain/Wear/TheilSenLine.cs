using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// The line of Theil and Sen in bare numbers, whatever they count: the median of the slopes of all pairs, the median of what
/// is left, and the band of the slope by rank.
/// </summary>
/// <param name="Slope">Median of the slopes.</param>
/// <param name="Intercept">Median of y - slope·x.</param>
/// <param name="Least">The least slope of the band.</param>
/// <param name="Greatest">The greatest slope of the band.</param>
/// <param name="Level">What the band covers.</param>
/// <param name="Count">How many points.</param>
internal sealed record TheilSenLine(
    decimal Slope,
    decimal Intercept,
    decimal Least,
    decimal Greatest,
    Probability Level,
    int Count
)
{
    /// <summary>The line through points.</summary>
    /// <param name="points">Three or more, in order of x, no x twice.</param>
    /// <param name="level">What the band should cover.</param>
    public static TheilSenLine Through(ImmutableArray<(decimal X, decimal Y)> points, Probability level)
    {
        var slopes = Slopes(points);
        var slope = Median.OfOrdered(slopes);
        var interval = RankInterval.Covering(points.Length, level);
        return new(
            slope,
            Median.Of(points.Select(point => point.Y - (slope * point.X))),
            slopes[interval.Rank - 1],
            slopes[^interval.Rank],
            interval.Coverage,
            points.Length
        );
    }

    private static ImmutableArray<decimal> Slopes(ImmutableArray<(decimal X, decimal Y)> points) =>
        [
            .. points
                .SelectMany(
                    (point, index) =>
                        points.Skip(index + 1).Select(later => (later.Y - point.Y) / (later.X - point.X))
                )
                .Order(),
        ];
}
