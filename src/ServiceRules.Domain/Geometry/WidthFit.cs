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
/// count as independent but for what they share by their gauge, and with three or more the part of each that is its own
/// counts as no less than they scatter about the line. When any
/// reading is an interval, all count as intervals and the result is the interval of all values they admit.
/// </para>
/// <para>
/// Where no straight line passes through all of the intervals, the shape between and beyond the stations is unknown:
/// a value there is known only within the hull of what the line and the parabola give.
/// </para>
/// </summary>
public sealed class WidthFit
{
    private const decimal LeastSpread = 1e-6m;

    private readonly ImmutableArray<decimal> _positions;
    private readonly ImmutableArray<MeasuredValue> _measured;
    private readonly ImmutableArray<LengthInterval> _intervals;
    private readonly ImmutableArray<SharedError> _shared;
    private readonly Parabola? _parabola;

    /// <summary>The parabola where intervals rule out every straight line, else none.</summary>
    private readonly Parabola? _otherShape;

    private Misfit _misfitOfLine;
    private Misfit _misfitOfParabola;

    private WidthFit(ImmutableArray<StationReading> readings, Length width, StandardUncertainty shared)
    {
        Readings = readings;
        Width = width;
        _shared = [.. readings.Select(r => r.Shared ?? SharedError.InAll(shared))];
        _positions = [.. readings.Select(r => Position(r.Station, width))];
        _intervals = [.. readings.Select(r => r.Knowledge.AsInterval())];
        _measured = readings.All(r => r.Knowledge is MeasuredValue)
            ? [.. readings.Select(r => (MeasuredValue)r.Knowledge)]
            : [];
        _parabola = Parabola.Over(_positions);
        _otherShape =
            _measured.IsEmpty && !CommonLine.Exists([.. readings.Select(r => r.Station)], _intervals)
                ? _parabola
                : null;
        _misfitOfLine = MisfitOf(parameters: 2);
        _misfitOfParabola = _parabola is null ? _misfitOfLine : MisfitOf(parameters: 3);
    }

    /// <summary>The readings, from left to right.</summary>
    public ImmutableArray<StationReading> Readings { get; }

    /// <summary>The width L, from the left end at 0 to the right end.</summary>
    public Length Width { get; }

    /// <summary>Measured readings scatter about the straight line by more than their gauge explains.</summary>
    public bool IsUneven => Own.Any(own => own < _misfitOfLine.Scatter);

    /// <summary>The same readings as if they lay on a straight line: what their gauge alone leaves in doubt.</summary>
    public WidthFit AsIfEven()
    {
        var even = (WidthFit)MemberwiseClone();
        even._misfitOfLine = Misfit.None;
        even._misfitOfParabola = Misfit.None;
        return even;
    }

    /// <summary>
    /// A reading this near to an end, or to the middle, tells what stands there: nobody sets a gauge to the millimetre, and its
    /// foot needs a piece of the edge to stand on. Common practice, no source.
    /// </summary>
    public static Length Near { get; } = Length.FromMillimetres(5m);

    /// <summary>The value at the left end.</summary>
    public Knowledge LeftEnd => At(Length.Zero);

    /// <summary>The value at the right end.</summary>
    public Knowledge RightEnd => At(Width);

    /// <summary>The line at mid-width.</summary>
    public Knowledge Offset => Evaluate(LineAt(0m), _misfitOfLine);

    /// <summary>
    /// Tilt per width: right end minus left end. By the parabola where there are three different stations and it leaves
    /// the tilt no more than twice as uncertain as the line does, since a bow is no tilt; else by the line. Stations that lie
    /// alike to both sides of the middle give the same by both.
    /// </summary>
    public Knowledge Tilt
    {
        get
        {
            ImmutableArray<decimal> line = [.. SlopeWeights(_positions)];
            return
                _parabola is { } parabola
                && parabola.TiltWeights(line) is { } bowed
                && Positions.SumOfSquares(bowed) <= 4 * Positions.SumOfSquares(line)
                ? Evaluate(LinearForm.Fitted(bowed), _misfitOfParabola)
                : Evaluate(LinearForm.Fitted(line), _misfitOfLine);
        }
    }

    /// <summary>
    /// Bow: the fitted parabola at mid-width minus the mean of its two ends; positive when the middle is
    /// larger. None with fewer than three different stations, or where they do not stand spread (<see cref="IsSpread"/>).
    /// </summary>
    public Knowledge? Bow =>
        _parabola is { } parabola && IsSpread
            ? Evaluate(LinearForm.Fitted(parabola.BowWeights), _misfitOfParabola)
            : null;

    /// <summary>
    /// Whether the stations stand spread enough to tell a bow: the outer two at least half the width apart, and one between them
    /// in the middle half of the stretch. Of stations that stand close together the parabola makes a bow out of where a gauge was
    /// set. Common practice, no source.
    /// </summary>
    public bool IsSpread
    {
        get
        {
            var (first, last) = (Readings[0].Station, Readings[^1].Station);
            var quarter = (last - first) * 0.25m;
            return (last - first) * 2 >= Width
                && Readings.Any(reading =>
                    reading.Station >= first + quarter && reading.Station <= last - quarter
                );
        }
    }

    /// <summary>The reading that lies furthest off the straight line through all of them, measured ones as read.</summary>
    public StationReading Outlying =>
        Readings.MaxBy(reading => (Middle(reading.Knowledge) - Middle(LineAt(reading.Station))).Abs)!;

    /// <summary>Where only one end is known, that.</summary>
    private static Length Middle(Knowledge known) =>
        known.Middle ?? known.Least ?? known.Greatest ?? Length.Zero;

    /// <summary>
    /// The mean over the width, by the parabola where there is one: the line at mid-width and what a bow adds to it or takes
    /// from it.
    /// </summary>
    public Knowledge Mean =>
        _parabola is { } parabola && IsSpread
            ? Evaluate(LineAt(0m).Plus(LinearForm.Fitted(parabola.MeanDepartureWeights())), _misfitOfParabola)
            : Offset;

    /// <summary>
    /// How far each station and end lies above each other one that it is not below, measured readings only; the largest first,
    /// and of those alike the least certain. An end that was read is its station, one that was not by the line.
    /// </summary>
    public ImmutableArray<WidthDifference> Differences => Pairs(ValuesByLine(), _misfitOfLine);

    /// <summary>
    /// The same by the parabola: the stations as read, the ends and the middle of the width by the parabola where they were not
    /// read. None with fewer than three different stations.
    /// </summary>
    public ImmutableArray<WidthDifference> DifferencesByParabola =>
        _parabola is null
            ? []
            : Pairs(
                [
                    .. NotRead(Length.Zero, Width * 0.5m, Width)
                        .Select(at => (at, ParabolaAt(Position(at, Width)))),
                    .. AtStations(),
                ],
                _misfitOfParabola
            );

    /// <summary>
    /// The range of the values at every station and at both ends, of those that were read as read. When the readings are distances
    /// from a straight datum, this is the parallelism deviation over the whole width.
    /// </summary>
    public Knowledge Range
    {
        get
        {
            ImmutableArray<ImmutableArray<LinearForm>> values =
            [
                .. NotRead(Length.Zero, Width).Select(at => ShapesAt(Position(at, Width))),
                .. AtStations().Select(read => ImmutableArray.Create(read.Value)),
            ];
            return _measured.IsEmpty
                ? KnownRange.Of(values, _intervals)
                : KnownRange.Of([.. values.Select(v => v[0])], _measured, _shared, _misfitOfLine);
        }
    }

    /// <summary>
    /// Fits the readings. None when no line can be drawn: the width is below 1 mm, a station lies more than a
    /// width outside, or the stations do not spread over about a thousandth of the width.
    /// </summary>
    /// <param name="readings">Readings at two different stations or more, in any order.</param>
    /// <param name="width">The width L.</param>
    /// <param name="shared">
    /// What those readings share that do not say themselves: one and the same error in all of them. It stays in values and
    /// drops out of tilt, bow and range.
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
        return Positions.SumOfSquares(Positions.Centred(positions)) >= LeastSpread
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

    /// <summary>Whether a reading stands so near to a place that it tells what stands there (<see cref="Near"/>).</summary>
    public bool IsRead(Length at) => Readings.Any(reading => (reading.Station - at).Abs <= Near);

    /// <summary>
    /// The value at a station: by the line; of intervals that no straight line passes through, the hull of the line's and
    /// the parabola's.
    /// </summary>
    public Knowledge At(Length station) =>
        _otherShape is null
            ? LineAt(station)
            : ShapesAt(Position(station, Width))
                .Select(shape => shape.Apply(_intervals))
                .Aggregate((known, other) => known.Hull(other));

    /// <summary>The line itself at a station, however the readings bend: what adjusters at both sides can move.</summary>
    public Knowledge LineAt(Length station) => Evaluate(LineAt(Position(station, Width)), _misfitOfLine);

    /// <summary>The parabola at a station; the line where there is none, with fewer than three different stations.</summary>
    public Knowledge ParabolaAt(Length station)
    {
        return _parabola is null
            ? LineAt(station)
            : Evaluate(ParabolaAt(Position(station, Width)), _misfitOfParabola);
    }

    /// <summary>
    /// How far one place of <see cref="Differences"/> lies above another, told again by this line: as its gauge alone tells it,
    /// say. Readings that are intervals tell none.
    /// </summary>
    /// <param name="above">The station, or 0 or the width for an end.</param>
    /// <param name="below">The other.</param>
    public MeasuredValue? Difference(Length above, Length below)
    {
        if (_measured.IsEmpty)
        {
            return null;
        }

        var values = ValuesByLine();
        var (high, low) = (
            values.LastOrDefault(v => v.At == above),
            values.LastOrDefault(v => v.At == below)
        );
        return high.Value is null || low.Value is null
            ? null
            : high.Value.Minus(low.Value).Apply(_measured, _shared, _misfitOfLine);
    }

    /// <summary>
    /// Between what a reading has to lie for the line at a place to keep within limits, wherever the other readings lie in their
    /// intervals. None where those leave the line open there, or where no straight line passes through them.
    /// </summary>
    /// <param name="reading">Which of <see cref="Readings"/>.</param>
    /// <param name="at">The place, from the left end.</param>
    /// <param name="lower">The lower limit there, if any.</param>
    /// <param name="upper">The upper limit there, if any.</param>
    public ReadingRoom? RoomOf(int reading, Length at, Length? lower, Length? upper)
    {
        var line = LineAt(Position(at, Width));
        var rises = line.SignOf(reading) > 0;
        if (_otherShape is not null)
        {
            return null;
        }

        if (line.SignOf(reading) == 0)
        {
            return new(null, null);
        }

        var atLower = lower is { } least ? line.Needed(reading, _intervals, least, upper: false) : null;
        var atUpper = upper is { } most ? line.Needed(reading, _intervals, most, upper: true) : null;
        return (lower is not null && atLower is null) || (upper is not null && atUpper is null) ? null
            : rises ? new(atLower, atUpper)
            : new(atUpper, atLower);
    }

    private ImmutableArray<(Length At, LinearForm Value)> ValuesByLine() =>
        [.. NotRead(Length.Zero, Width).Select(at => (at, LineAt(Position(at, Width)))), .. AtStations()];

    private IEnumerable<Length> NotRead(params Length[] places) => places.Where(at => !IsRead(at));

    private IEnumerable<(Length At, LinearForm Value)> AtStations() =>
        Readings.Select((reading, i) => (reading.Station, LinearForm.Single(i, Readings.Length)));

    private ImmutableArray<WidthDifference> Pairs(
        ImmutableArray<(Length At, LinearForm Value)> values,
        Misfit misfit
    ) =>
        _measured.IsEmpty
            ? []
            :
            [
                .. (
                    from high in values
                    from low in values
                    where high.Value != low.Value
                    let difference = high.Value.Minus(low.Value).Apply(_measured, _shared, misfit)
                    where difference.Value >= Length.Zero
                    select new WidthDifference(high.At, low.At, difference)
                )
                    .OrderByDescending(pair => pair.By.Value)
                    .ThenByDescending(pair => pair.By.Expanded.Value),
            ];

    private static IEnumerable<decimal> SlopeWeights(ImmutableArray<decimal> positions)
    {
        var centred = Positions.Centred(positions);
        var sum = Positions.SumOfSquares(centred);
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

    private LinearForm ParabolaAt(decimal position) =>
        LineAt(position).Plus(LinearForm.Fitted(_parabola!.DepartureWeights(position)));

    /// <summary>The line and, where no straight line fits intervals, the parabola.</summary>
    private ImmutableArray<LinearForm> ShapesAt(decimal position)
    {
        var line = LineAt(position);
        return _otherShape is { } parabola
            ? [line, line.Plus(LinearForm.Fitted(parabola.DepartureWeights(position)))]
            : [line];
    }

    /// <summary>The part of each reading's uncertainty that is its own; what all share moves them together, and explains no scatter.</summary>
    private IEnumerable<double> Own =>
        _measured.Zip(_shared, (m, s) => LinearForm.Own(m.Uncertainty, s.Uncertainty));

    /// <summary>
    /// How far the readings scatter about the line, or about the parabola: s = √(Σrᵢ²/(n - p)), p the number of parameters. It
    /// rests on what was read alone: a ratio to the readings' uncertainties (R. T. Birge, Physical Review 40, 1932) would
    /// fall as one of them grows, and widen the others less.
    /// </summary>
    private Misfit MisfitOf(int parameters)
    {
        if (_measured.Length <= parameters || Own.Any(u => u == 0))
        {
            return Misfit.None;
        }

        var sum = 0.0;
        for (var i = 0; i < _measured.Length; i++)
        {
            var form = LineAt(_positions[i]);
            if (parameters == 3)
            {
                form = form.Plus(LinearForm.Fitted(_parabola!.DepartureWeights(_positions[i])));
            }

            var residual = (double)(_measured[i].Value - form.Estimate(_measured)).Millimetres;
            sum += residual * residual;
        }

        return new(Math.Sqrt(sum / (_measured.Length - parameters)));
    }

    private Knowledge Evaluate(LinearForm form, Misfit misfit) =>
        _measured.IsEmpty ? form.Apply(_intervals) : form.Apply(_measured, _shared, misfit);
}
