using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// The zone between two parallel lines that encloses all points, its direction chosen as
/// <see cref="LineAssociation"/> names. Distances are taken square to the width, as gauges take them; the
/// cosine of the slope, at most 5e-7 relative for slopes up to 1e-3, is left out.
/// </summary>
/// <param name="Association">How the direction was chosen.</param>
/// <param name="Slope">Change of value per length along the width, a pure number rounded to 22 decimals.</param>
/// <param name="Width">Distance between the two lines, rounded to 1e-12 mm.</param>
public sealed record StraightnessZone(LineAssociation Association, decimal Slope, Length Width)
{
    /// <summary>The zone of these points; none with fewer than two different stations.</summary>
    public static StraightnessZone? Of(ImmutableArray<StationPoint> points, LineAssociation association)
    {
        if (points.Select(p => p.Station).Distinct().Count() < 2)
        {
            return null;
        }

        points = [.. points.OrderBy(p => p.Station).ThenBy(p => p.Value)];
        var slope =
            association == LineAssociation.MinimumZone ? MinimumZoneSlope(points) : LeastSquaresSlope(points);
        return new(association, slope, WidthAlong(points, slope));
    }

    /// <summary>
    /// The least width over all slopes of a zone that holds, at each station, everything between a lower and an
    /// upper value: what no tilt can take out.
    /// </summary>
    internal static Length LeastWidth(
        ImmutableArray<StationPoint> lower,
        ImmutableArray<StationPoint> upper
    ) =>
        PairSlopes(lower)
            .Concat(PairSlopes(upper))
            .Append(0m)
            .Min(slope =>
                Rounding.ToLength(upper.Max(p => Reduced(p, slope)) - lower.Min(p => Reduced(p, slope)))
            );

    /// <summary>
    /// The pairs of points that the minimum-zone direction rests on. The width is a convex, piecewise linear
    /// function of the slope, so its least value lies on the slope through two of the points: one pair, or the two
    /// outermost ones where several slopes tie.
    /// </summary>
    /// <param name="points">Sorted by station.</param>
    internal static ImmutableArray<(int Left, int Right)> MinimumZoneSupports(
        ImmutableArray<StationPoint> points
    )
    {
        var candidates = (
            from left in Enumerable.Range(0, points.Length)
            from right in Enumerable.Range(0, points.Length)
            where points[left].Station < points[right].Station
            let slope = SlopeBetween(points[left], points[right])
            select (Left: left, Right: right, Slope: slope, Width: WidthAlong(points, slope))
        ).ToList();
        var least = candidates.Min(c => c.Width);
        var best = candidates.Where(c => c.Width == least).ToList();
        var (shallowest, steepest) = (best.MinBy(c => c.Slope), best.MaxBy(c => c.Slope));
        return shallowest.Slope == steepest.Slope
            ? [LongestOf(best, points)]
            : [(shallowest.Left, shallowest.Right), (steepest.Left, steepest.Right)];

        static (int, int) LongestOf(
            List<(int Left, int Right, decimal Slope, Length Width)> pairs,
            ImmutableArray<StationPoint> points
        )
        {
            var longest = pairs.MaxBy(c => points[c.Right].Station - points[c.Left].Station);
            return (longest.Left, longest.Right);
        }
    }

    /// <summary>Where two slopes tie, the middle, so that mirroring the points mirrors the line.</summary>
    private static decimal MinimumZoneSlope(ImmutableArray<StationPoint> points) =>
        Rounding.Factor(
            MinimumZoneSupports(points).Average(pair => SlopeBetween(points[pair.Left], points[pair.Right]))
        );

    private static decimal LeastSquaresSlope(ImmutableArray<StationPoint> points)
    {
        var centred = Positions.Centred([.. points.Select(p => p.Station.Millimetres)]);
        var cross = centred.Zip(points, (c, p) => c * p.Value.Millimetres).Sum();
        return Rounding.Factor(cross / Positions.SumOfSquares(centred));
    }

    private static IEnumerable<decimal> PairSlopes(ImmutableArray<StationPoint> points) =>
        from a in points
        from b in points
        where a.Station < b.Station
        select SlopeBetween(a, b);

    private static decimal SlopeBetween(StationPoint left, StationPoint right) =>
        Rounding.Factor((right.Value - left.Value).Millimetres / (right.Station - left.Station).Millimetres);

    private static Length WidthAlong(ImmutableArray<StationPoint> points, decimal slope) =>
        Rounding.ToLength(points.Max(p => Reduced(p, slope)) - points.Min(p => Reduced(p, slope)));

    private static decimal Reduced(StationPoint point, decimal slope) =>
        point.Value.Millimetres - (slope * point.Station.Millimetres);
}
