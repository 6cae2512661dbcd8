using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// Parallelism of a line to a datum line (ISO 1101:2017): the range of its distances from the datum,
/// never the straightness of the distances. A pure tilt is fully out of parallel; a tilt that both share
/// drops out.
/// </summary>
/// <param name="Deviation">The range, with uncertainty or as an interval.</param>
/// <param name="DatumAssociation">How the datum line was laid; none when distances were taken straight from the datum.</param>
/// <param name="DatumSlope">The slope of the datum line; zero when distances were taken straight from the datum.</param>
public sealed record Parallelism(Knowledge Deviation, LineAssociation? DatumAssociation, decimal DatumSlope)
{
    /// <summary>
    /// From distances that were themselves taken from the datum, with a gauge that rests on it. None with
    /// fewer than two readings. For the whole width see <see cref="WidthFit.Range"/>.
    /// </summary>
    /// <param name="distances">Distance from the datum at each station.</param>
    /// <param name="shared">The uncertainty all readings share, which drops out of the range.</param>
    public static Parallelism? FromDistances(
        ImmutableArray<StationReading> distances,
        StandardUncertainty shared = default
    )
    {
        if (distances.Length < 2)
        {
            return null;
        }

        ImmutableArray<LinearForm> values =
        [
            .. Enumerable.Range(0, distances.Length).Select(i => LinearForm.Single(i, distances.Length)),
        ];
        return new(RangeOf(values, distances, shared), null, 0m);
    }

    /// <summary>
    /// From heights of feature and datum over one reference. None when the datum has fewer than two different
    /// stations or is not measured throughout, or the feature has fewer than two readings.
    /// </summary>
    /// <param name="feature">Heights of the line that is judged.</param>
    /// <param name="datum">Measured heights of the datum.</param>
    /// <param name="association">How the datum line is laid through them.</param>
    /// <param name="shared">The uncertainty all readings share, which drops out of the range.</param>
    public static Parallelism? ToDatum(
        ImmutableArray<StationReading> feature,
        ImmutableArray<StationReading> datum,
        LineAssociation association,
        StandardUncertainty shared = default
    )
    {
        if (feature.Length < 2 || !datum.All(d => d.Knowledge is MeasuredValue))
        {
            return null;
        }

        // Sorted, so that the order in which readings were written down plays no part.
        datum = [.. datum.OrderBy(d => d.Station).ThenBy(d => ((MeasuredValue)d.Knowledge).Value)];
        ImmutableArray<StationPoint> points =
        [
            .. datum.Select(d => new StationPoint(d.Station, ((MeasuredValue)d.Knowledge).Value)),
        ];
        if (StraightnessZone.Of(points, association) is not { } zone)
        {
            return null;
        }

        var slopeWeights = SlopeWeights(points, association);
        ImmutableArray<LinearForm> values =
        [
            .. feature.Select(
                (f, i) =>
                    LinearForm.Of(
                        Enumerable
                            .Range(0, feature.Length)
                            .Select(j => j == i ? 1m : 0m)
                            .Concat(slopeWeights.Select(w => -w * f.Station.Millimetres))
                    )
            ),
        ];
        return new(RangeOf(values, [.. feature, .. datum], shared), association, zone.Slope);
    }

    private static Knowledge RangeOf(
        ImmutableArray<LinearForm> values,
        ImmutableArray<StationReading> readings,
        StandardUncertainty shared
    ) =>
        readings.All(r => r.Knowledge is MeasuredValue)
            ? KnownRange.Of(
                values,
                [.. readings.Select(r => (MeasuredValue)r.Knowledge)],
                [.. readings.Select(r => r.Shared ?? SharedError.InAll(shared))],
                Misfit.None
            )
            : KnownRange.Of(values, [.. readings.Select(r => r.Knowledge.AsInterval())]);

    /// <summary>
    /// The datum slope as a weighted sum of the datum's heights, so that its uncertainty is carried: exactly so
    /// for least squares, and to first order, through the points it rests on, for the minimum zone.
    /// </summary>
    private static ImmutableArray<decimal> SlopeWeights(
        ImmutableArray<StationPoint> points,
        LineAssociation association
    )
    {
        if (association == LineAssociation.LeastSquares)
        {
            var centred = Positions.Centred([.. points.Select(p => p.Station.Millimetres)]);
            var squares = Positions.SumOfSquares(centred);
            return [.. centred.Select(c => c / squares)];
        }

        var weights = new decimal[points.Length];
        var supports = StraightnessZone.MinimumZoneSupports(points);
        foreach (var (left, right) in supports)
        {
            var share = 1 / ((points[right].Station - points[left].Station).Millimetres * supports.Length);
            weights[right] += share;
            weights[left] -= share;
        }

        return [.. weights];
    }
}
