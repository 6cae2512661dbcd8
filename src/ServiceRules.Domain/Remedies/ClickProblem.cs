using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>A task with its places, and its limits as exact constraints on whole steps.</summary>
internal sealed class ClickProblem
{
    private readonly decimal _span;
    private readonly ImmutableArray<LeverPlace> _judged;
    private readonly ToleranceZone _held;
    private readonly ImmutableArray<StepConstraint> _heldConstraints;

    public ClickProblem(ClickTask task)
    {
        Task = task;
        _span = (task.Adjusters.RightAt - task.Adjusters.LeftAt).Millimetres;
        Places = [.. PlacesOf(task)];
        _judged = [.. Places.Where(p => !task.StationsOnly || p.Place == LandingPlace.Station)];
        ZoneConstraints = [.. _judged.SelectMany(place => Inside(place, task.Zone))];
        _held = task.HeldTo ?? task.Zone;
        _heldConstraints = [.. _judged.SelectMany(place => Inside(place, _held))];
        ClearConstraints = task.KeepClear ? [.. Places.SelectMany(place => place.Clear)] : [];
        Constraints = [.. ZoneConstraints, .. ClearConstraints];
        HasKnowledgeWiderThanZone =
            _judged.Any(IsWiderThanZone) || (task.KeepClear && Places.Any(p => p.Least is null));
    }

    public ClickTask Task { get; }

    /// <summary>Every station, and both ends where a line reaches them and no station is so near that it tells them, from left to right.</summary>
    public ImmutableArray<LeverPlace> Places { get; }

    /// <summary>What the zone asks of the places that must hold.</summary>
    public ImmutableArray<StepConstraint> ZoneConstraints { get; }

    /// <summary>That nothing touches in the end, where contact is to be avoided.</summary>
    public ImmutableArray<StepConstraint> ClearConstraints { get; }

    /// <summary>The zone and, where contact is to be avoided, no contact in the end.</summary>
    public ImmutableArray<StepConstraint> Constraints { get; }

    /// <summary>Whether some place is known too coarsely to be landed with certainty.</summary>
    public bool HasKnowledgeWiderThanZone { get; }

    /// <summary>Whether no tilt and offset, however fine, bring all places into the zone.</summary>
    public bool IsBowedBeyondZone => IsBowed(_judged);

    /// <summary>Whether some line by itself is so, and not only several together.</summary>
    public bool IsOneLineBowedBeyondZone =>
        _judged.GroupBy(place => place.Line).Any(line => IsBowed([.. line]));

    private bool IsBowed(ImmutableArray<LeverPlace> places) =>
        Task.Zone.Width is { } width
        && StraightnessZone.LeastWidth(Points(places, p => p.Low), Points(places, p => p.High)) > width;

    /// <summary>Whether no place can touch as it stands.</summary>
    public bool StartsFree => !Places.Any(place => place.Touches(default, default));

    /// <summary>Whether a step from one setting to the next makes a clear place touch, or moves a touching one further in.</summary>
    public bool Deepens((SideTurned Left, SideTurned Right) from, (SideTurned Left, SideTurned Right) to) =>
        Places.Any(place =>
            place.Touches(to.Left, to.Right)
            && (
                !place.Touches(from.Left, from.Right)
                || place.LeastMoved(to.Left, to.Right) < place.LeastMoved(from.Left, from.Right)
            )
        );

    /// <summary>
    /// Whether some whole steps, however many, land every place in the zone; contact is another question, since over so many steps
    /// the doubt of a step alone may come to all of the gap. Looked for about the setting that brings both adjusters to the target,
    /// so that a gap of any size is as near as a small one.
    /// </summary>
    public bool IsFeasibleBeyondTheTravel
    {
        get
        {
            var (left, right) = StepsToTarget();
            ImmutableArray<StepConstraint> about =
            [
                .. ZoneConstraints.Select(each =>
                    each with
                    {
                        AtLeast = each.AtLeast - (each.Left * left) - (each.Right * right),
                    }
                ),
            ];
            return FeasibleRows(about, AdjusterPair.MostSteps).Count > 0;
        }
    }

    /// <summary>Per number of left-hand steps, the right-hand steps that keep all constraints; empty rows left out.</summary>
    public IReadOnlyList<StepRow> FeasibleRows(ImmutableArray<StepConstraint> constraints, int travel) =>
        HasKnowledgeWiderThanZone ? [] : Rows(constraints, travel);

    private static List<StepRow> Rows(ImmutableArray<StepConstraint> constraints, int travel)
    {
        var rows = new List<StepRow>();
        for (var left = -travel; left <= travel; left++)
        {
            var (from, to) = (-travel, travel);
            foreach (var constraint in constraints)
            {
                var (atLeast, atMost) = constraint.RightSteps(left, travel);
                (from, to) = (Math.Max(from, atLeast), Math.Min(to, atMost));
                if (from > to)
                {
                    break;
                }
            }

            if (from <= to)
            {
                rows.Add(new(left, from, to));
            }
        }

        return rows;
    }

    /// <summary>The whole steps of each side that bring the line through the outer places nearest to the target.</summary>
    private (decimal Left, decimal Right) StepsToTarget()
    {
        var (first, last) = (_judged[0], _judged[^1]);
        var (at, to) = (Middle(first), Middle(last));
        var apart = (last.Station - first.Station).Millimetres;
        var slope = apart == 0 ? 0 : (to - at) / apart;
        return (Steps(Task.Adjusters.LeftAt), Steps(Task.Adjusters.RightAt));

        decimal Steps(Length adjuster) =>
            Math.Round(
                (Task.Target.Millimetres - at - (slope * (adjuster - first.Station).Millimetres))
                    / Task.Adjusters.Step.Millimetres
            );
    }

    private decimal Middle(LeverPlace place) =>
        ((place.Low ?? place.High ?? 0) + (place.High ?? place.Low ?? 0)) / (2 * _span);

    /// <summary>The largest distance from the target over the places that must hold, scaled by the span.</summary>
    public decimal ScaledDeviation(int left, int right) =>
        _judged.Max(p => p.Deviation(left, right, Task.Target.Millimetres * _span));

    public Length LargestDeviation(int left, int right) =>
        Rounding.ToLength(ScaledDeviation(left, right) / _span);

    public ImmutableArray<Landing> Landings(int left, int right, ImmutableArray<SingleStep> sequence)
    {
        var (leftTurned, rightTurned) = (Turned(sequence, Side.Left), Turned(sequence, Side.Right));
        return
        [
            .. Places.Select(p => new Landing(
                p.Place,
                p.Station,
                p.Knowledge,
                p.Knowledge.ShiftedBy(Task.Adjusters.Movement(left, right, p.Station), Length.Zero)
            )
            {
                Known = p.Bounds,
                Line = p.Line,
                LeastBefore = Scaled(p.Least),
                LeastAfter = Scaled(p.Least + p.LeastMoved(leftTurned, rightTurned)),
            }),
        ];
    }

    private Length? Scaled(decimal? value) => value is { } known ? Rounding.ToLength(known / _span) : null;

    private static SideTurned Turned(ImmutableArray<SingleStep> sequence, Side side) =>
        sequence
            .Where(step => step.Side == side)
            .Aggregate(default(SideTurned), (turned, step) => turned.Then(step.Opens ? 1 : -1));

    /// <summary>
    /// The setting whose worst place misses the zone by least; fewest steps among equals. Where contact is to be avoided, of
    /// those that cannot touch and that some order of turning reaches. None when some place has no bound on a side that the
    /// zone limits, or nothing is sure not to touch.
    /// </summary>
    /// <param name="keepsIn">
    /// Whether a place that was read and is in is left in: only where nothing that leaves it in betters anything may it be put out.
    /// </param>
    public NearestSetting? Nearest(bool keepsIn = false)
    {
        if (
            _judged.Any(p =>
                (Task.Zone.Lower is not null && p.Low is null)
                || (Task.Zone.Upper is not null && p.High is null)
            )
        )
        {
            return null;
        }

        if (Task.KeepClear && Places.Any(p => p.Least is null))
        {
            return null;
        }

        if (Best([]) is not { } best)
        {
            return null;
        }

        if (keepsIn && !IsLeftIn(best) && Best(LeftIn) is { } kept && IsWorthTurning(kept))
        {
            return Setting(kept.Left, kept.Right) with { KeepsIn = Held(best) < Held(kept) };
        }

        return Setting(best.Left, best.Right);
    }

    /// <summary>That the places which were read and are in stay in; an end that a line alone tells of is no reason to turn less.</summary>
    private ImmutableArray<StepConstraint> LeftIn =>
        [
            .. _judged
                .Where(place => place.Place is LandingPlace.Station)
                .Select(place => Inside(place, _held).ToList())
                .Where(limits => limits.TrueForAll(limit => limit.IsKept(0, 0)))
                .SelectMany(limits => limits),
        ];

    private bool IsLeftIn((int Left, int Right) at) => LeftIn.All(limit => limit.IsKept(at.Left, at.Right));

    private bool IsWorthTurning((int Left, int Right) at) => !StartsFree || Held(at) < Held((0, 0));

    /// <summary>
    /// The best of all settings that keep more constraints, by what they miss. From the best of each row outwards, since what is
    /// missed grows both ways from there; it ends where what is left misses by more than what was found.
    /// </summary>
    private (int Left, int Right)? Best(ImmutableArray<StepConstraint> more)
    {
        var ahead = new PriorityQueue<(StepRow Row, int Right, int Way), decimal>();
        foreach (var row in Rows([.. ClearConstraints, .. more], Task.Adjusters.Travel))
        {
            Add(row, BestRight(row), 0);
        }

        // Each found betters the one before; the last is the best.
        List<((int Left, int Right) At, (decimal, decimal, int, int, int, int) Key)> found = [];
        while (
            ahead.TryDequeue(out var next, out var misses)
            && (found.Count == 0 || misses <= found[^1].Key.Item1)
        )
        {
            var (row, right, way) = next;
            var key = (
                misses,
                Excess(ZoneConstraints, row.Left, right),
                Math.Abs(row.Left) + Math.Abs(right),
                Math.Abs(row.Left - right),
                Math.Abs(right),
                right
            );
            if (
                (found.Count == 0 || key.CompareTo(found[^1].Key) < 0)
                && (!Task.KeepClear || TurningOrder.Find(this, row.Left, right) is not null)
            )
            {
                found.Add(((row.Left, right), key));
            }

            if (way <= 0 && right > row.RightFrom)
            {
                Add(row, right - 1, -1);
            }

            if (way >= 0 && right < row.RightTo)
            {
                Add(row, right + 1, 1);
            }
        }

        return found.Count == 0 ? null : found[^1].At;

        void Add(StepRow row, int right, int way) =>
            ahead.Enqueue((row, right, way), Held((row.Left, right)));
    }

    /// <summary>A setting with the place that misses the zone by most: the first from the left among equals.</summary>
    private NearestSetting Setting(int left, int right)
    {
        var sequence = TurningOrder.Find(this, left, right) ?? [];
        var landings = Landings(left, right, sequence);
        var (worst, isAbove, excess) = _judged
            .SelectMany(place =>
                new[]
                {
                    (
                        Place: place,
                        IsAbove: false,
                        By: (Task.Zone.Lower?.Millimetres * _span) - place.LowAfter(left, right)
                    ),
                    (
                        Place: place,
                        IsAbove: true,
                        By: place.HighAfter(left, right) - (Task.Zone.Upper?.Millimetres * _span)
                    ),
                }
            )
            .Where(miss => miss.By is not null)
            .MaxBy(miss => miss.By);
        return new(
            left,
            right,
            landings,
            Rounding.ToLength(Math.Max(0, excess ?? 0) / _span),
            landings[Places.IndexOf(worst)],
            isAbove
        )
        {
            Sequence = sequence,
        };
    }

    /// <summary>By how much the worst place misses the zone that is told; zero when none does.</summary>
    private decimal Held((int Left, int Right) at) => Excess(_heldConstraints, at.Left, at.Right);

    private static decimal Excess(ImmutableArray<StepConstraint> zone, int left, int right)
    {
        var most = 0m;
        foreach (var limit in zone)
        {
            most = Math.Max(most, limit.Shortfall(left, right));
        }

        return most;
    }

    /// <summary>
    /// The right-hand steps of a row with the least excess, the fewest among equals: the excess is convex in them, so
    /// halving finds where it has stopped falling and where it begins to rise.
    /// </summary>
    private int BestRight(StepRow row)
    {
        var first = FirstRight(row, right => Held((row.Left, right)) <= Held((row.Left, right + 1)));
        var last = FirstRight(row, right => Held((row.Left, right)) < Held((row.Left, right + 1)));
        return Math.Max(first, Math.Min(last, 0));
    }

    /// <summary>The first right-hand steps from which something holds; the last there are when it never does.</summary>
    private static int FirstRight(StepRow row, Func<int, bool> holdsFrom)
    {
        var (low, high) = (row.RightFrom, row.RightTo);
        while (low < high)
        {
            var middle = (int)Math.Floor((low + high) / 2.0);
            if (holdsFrom(middle))
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    private static IEnumerable<LeverPlace> PlacesOf(ClickTask task)
    {
        var known = task.Bounds.IsEmpty ? task.Readings : task.Bounds;
        return task
            .Readings.Select((reading, at) => (reading, known[at], Line: LineOf(task, at)))
            .GroupBy(each => each.Line)
            .SelectMany(line => PlacesOf(task, line.Key, [.. line.Select(each => (each.Item1, each.Item2))]))
            .OrderBy(place => place.Station);
    }

    private static int? LineOf(ClickTask task, int at) => task.Lines.IsEmpty ? null : task.Lines[at];

    private static IEnumerable<LeverPlace> PlacesOf(
        ClickTask task,
        int? line,
        ImmutableArray<(StationReading Reading, StationReading Known)> pairs
    )
    {
        ImmutableArray<StationReading> readings = [.. pairs.Select(pair => pair.Reading)];
        ImmutableArray<StationReading> known = [.. pairs.Select(pair => pair.Known)];
        var fit = WidthFit.Through(readings, task.Width, task.Shared);
        var bounds =
            task.KeepClear && Bent(known) is { } bent ? WidthFit.Through(bent, task.Width)
            : task.Bounds.IsEmpty ? fit
            : WidthFit.Through(known, task.Width, task.Shared);
        if (fit is not null && bounds is not null && !fit.IsRead(Length.Zero))
        {
            yield return Place(LandingPlace.LeftEnd, Length.Zero, fit.LeftEnd, bounds.LeftEnd);
        }

        foreach (var (reading, bound) in pairs)
        {
            yield return Place(LandingPlace.Station, reading.Station, reading.Knowledge, bound.Knowledge);
        }

        if (fit is not null && bounds is not null && !fit.IsRead(task.Width))
        {
            yield return Place(LandingPlace.RightEnd, task.Width, fit.RightEnd, bounds.RightEnd);
        }

        LeverPlace Place(LandingPlace place, Length station, Knowledge knowledge, Knowledge bound) =>
            new(place, station, knowledge, bound, task.Adjusters) { Line = line };
    }

    /// <summary>
    /// Measured readings at three stations or more as intervals, so that where no straight line meets them all, contact at the
    /// ends is counted on the parabola as well; else none.
    /// </summary>
    private static ImmutableArray<StationReading>? Bent(ImmutableArray<StationReading> known) =>
        known.Length > 2 && known.All(reading => reading.Knowledge is MeasuredValue)
            ?
            [
                .. known.Select(reading => new StationReading(
                    reading.Station,
                    reading.Knowledge.AsInterval()
                )),
            ]
            : null;

    private IEnumerable<StepConstraint> Inside(LeverPlace place, ToleranceZone zone)
    {
        if (zone.Lower is { } lower && place.Low is { } low)
        {
            yield return new(place.PerLeftStep, place.PerRightStep, (lower.Millimetres * _span) - low, false);
        }

        if (zone.Upper is { } upper && place.High is { } high)
        {
            yield return new(
                -place.PerLeftStep,
                -place.PerRightStep,
                high - (upper.Millimetres * _span),
                false
            );
        }
    }

    private bool IsWiderThanZone(LeverPlace place) =>
        (Task.Zone.Lower is not null && place.Low is null)
        || (Task.Zone.Upper is not null && place.High is null)
        || (Task.Zone.Width is { } width && place.High - place.Low > width.Millimetres * _span);

    private ImmutableArray<StationPoint> Points(
        ImmutableArray<LeverPlace> places,
        Func<LeverPlace, decimal?> end
    ) => [.. places.Select(p => new StationPoint(p.Station, Rounding.ToLength((end(p) ?? 0) / _span)))];
}
