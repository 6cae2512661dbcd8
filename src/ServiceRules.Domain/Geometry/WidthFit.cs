using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// The least-squares line through readings at stations along the width, and for three stations or more the
/// least-squares parabola for the bow. Through two stations it is the exact line, so that values extrapolated to
/// the ends are g(0) = g₁ - s·x₁ and g(L) = g₂ + s·(L - x₂) with s = (g₂ - g₁)/(x₂ - x₁) (derived
/// geometry).
/// <para>
/// Every result is a weighted sum of the readings. When all are measured, the result is measured: readings
/// count as independent but for the shared part that is named, and with three or more the uncertainty is
/// multiplied by the Birge ratio where the readings scatter about the line by more than it explains. When any
/// reading is an interval, all count as intervals and the result is the interval of all values they admit.
/// </para>
/// </summary>
public sealed class WidthFit
{
    private const decimal LeastSpread = 1e-6m;

    private readonly ImmutableArray<decimal> _positions;
    private readonly ImmutableArray<MeasuredValue> _measured;
    private readonly ImmutableArray<LengthInterval> _intervals;
    private readonly StandardUncertainty _shared;
    private readonly double _birgeRatio;

    private WidthFit(ImmutableArray<StationReading> readings, Length width, StandardUncertainty shared)
    {
        Readings = readings;
        Width = width;
        _shared = shared;
        _positions = [.. readings.Select(r => Position(r.Station, width))];
        _intervals = [.. readings.Select(r => r.Knowledge.AsInterval())];
        _measured = readings.All(r => r.Knowledge is MeasuredValue)
            ? [.. readings.Select(r => (MeasuredValue)r.Knowledge)]
            : [];
        _birgeRatio = BirgeRatio();
    }

    /// <summary>The readings, from left to right.</summary>
    public ImmutableArray<StationReading> Readings { get; }

    /// <summary>The width L, from the left end at 0 to the right end.</summary>
    public Length Width { get; }

    /// <summary>The line at the left end.</summary>
    public Knowledge LeftEnd => At(Length.Zero);

    /// <summary>The line at the right end.</summary>
    public Knowledge RightEnd => At(Width);

    /// <summary>The line at mid-width.</summary>
    public Knowledge Offset => Evaluate(LineAt(0m));

    /// <summary>Tilt per width: the line at the right end minus the line at the left end.</summary>
    public Knowledge Tilt => Evaluate(LinearForm.Fitted(SlopeWeights(_positions)));

    /// <summary>
    /// Bow: the fitted parabola at mid-width minus the mean of its two ends; positive when the middle is
    /// larger. None with fewer than three different stations.
    /// </summary>
    public Knowledge? Bow => BowWeights() is { } weights ? Evaluate(LinearForm.Of(weights)) : null;

    /// <summary>
    /// The range of the values at every station and of the line at both ends. When the readings are distances
    /// from a straight datum, this is the parallelism deviation over the whole width.
    /// </summary>
    public Knowledge Range
    {
        get
        {
            ImmutableArray<LinearForm> values =
            [
                LineAt(Position(Length.Zero, Width)),
                .. Enumerable.Range(0, Readings.Length).Select(i => LinearForm.Single(i, Readings.Length)),
                LineAt(Position(Width, Width)),
            ];
            return _measured.IsEmpty
                ? KnownRange.Of(values, _intervals)
                : KnownRange.Of(values, _measured, _shared, _birgeRatio);
        }
    }

    /// <summary>
    /// Fits the readings. None when no line can be drawn: the width is below 1 mm, a station lies more than a
    /// width outside, or the stations do not spread over about a thousandth of the width.
    /// </summary>
    /// <param name="readings">Readings at two different stations or more, in any order.</param>
    /// <param name="width">The width L.</param>
    /// <param name="shared">
    /// The standard uncertainty that all readings share because one instrument took them (calibration, zero);
    /// it moves all of them together, so it stays in values and drops out of tilt, bow and range.
    /// </param>
    public static WidthFit? Through(
        ImmutableArray<StationReading> readings,
        Length width,
        StandardUncertainty shared = default
    )
    {
        if (
            readings.Length < 2
            || width < Length.FromMillimetres(1)
            || readings.Any(r => r.Station < -width || r.Station > width * 2)
        )
        {
            return null;
        }

        ImmutableArray<decimal> positions = [.. readings.Select(r => Position(r.Station, width))];
        return SumOfSquares(Centred(positions)) >= LeastSpread
            ? new(
                [
                    .. readings
                        .OrderBy(r => r.Station)
                        .ThenBy(r => r.Knowledge.ToString(), StringComparer.Ordinal),
                ],
                width,
                shared
            )
            : null;
    }

    /// <summary>The line at a station.</summary>
    public Knowledge At(Length station) => Evaluate(LineAt(Position(station, Width)));

    private static ImmutableArray<decimal> Centred(ImmutableArray<decimal> positions)
    {
        var mean = positions.Sum() / positions.Length;
        return [.. positions.Select(p => p - mean)];
    }

    private static decimal SumOfSquares(ImmutableArray<decimal> values) => values.Sum(v => v * v);

    private static IEnumerable<decimal> SlopeWeights(ImmutableArray<decimal> positions)
    {
        var centred = Centred(positions);
        var sum = SumOfSquares(centred);
        return centred.Select(c => c / sum);
    }

    /// <summary>From -1/2 at the left end to 1/2 at the right end.</summary>
    private static decimal Position(Length station, Length width) =>
        (station.Millimetres - (width.Millimetres / 2)) / width.Millimetres;

    private LinearForm LineAt(decimal position)
    {
        var count = (decimal)_positions.Length;
        var mean = _positions.Sum() / count;
        return LinearForm.Fitted(
            SlopeWeights(_positions).Select(slope => (1 / count) + ((position - mean) * slope))
        );
    }

    /// <summary>
    /// Weights of -c/4, where c is the coefficient of the square in the parabola over positions, by the
    /// orthogonal polynomial of degree two.
    /// </summary>
    private IEnumerable<decimal>? BowWeights()
    {
        if (Readings.Select(r => r.Station).Distinct().Count() < 3)
        {
            return null;
        }

        var centred = Centred(_positions);
        var squares = SumOfSquares(centred);
        var cubes = centred.Sum(c => c * c * c);
        var second = centred
            .Select(c => (c * c) - (cubes / squares * c) - (squares / centred.Length))
            .ToImmutableArray();
        var norm = SumOfSquares(second);
        return norm >= LeastSpread * LeastSpread ? second.Select(p => -p / (4 * norm)) : null;
    }

    /// <summary>
    /// Birge ratio √(Σ(rᵢ/uᵢ)²/(n - 2)), at least 1 (R. T. Birge, Physical Review 40, 1932): by how much the
    /// readings scatter about the line beyond their own uncertainties, a bow for instance.
    /// </summary>
    private double BirgeRatio()
    {
        if (_measured.Length < 3 || _measured.Any(m => m.Uncertainty == StandardUncertainty.Zero))
        {
            return 1;
        }

        var sum = 0.0;
        for (var i = 0; i < _measured.Length; i++)
        {
            var residual = _measured[i].Value - LineAt(_positions[i]).Estimate(_measured);
            var ratio = (double)(residual.Millimetres / _measured[i].Uncertainty.Value.Millimetres);
            sum += ratio * ratio;
        }

        return Math.Max(1, Math.Sqrt(sum / (_measured.Length - 2)));
    }

    private Knowledge Evaluate(LinearForm form) =>
        _measured.IsEmpty ? form.Apply(_intervals) : form.Apply(_measured, _shared, _birgeRatio);
}
