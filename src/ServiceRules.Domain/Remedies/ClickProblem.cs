using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>A task with its places, and its limits as exact constraints on whole steps.</summary>
internal sealed class ClickProblem
{
    private readonly decimal _span;
    private readonly ImmutableArray<LeverPlace> _judged;

    public ClickProblem(ClickTask task, WidthFit? fit)
    {
        Task = task;
        _span = (task.Adjusters.RightAt - task.Adjusters.LeftAt).Millimetres;
        Places = [.. PlacesOf(task, fit)];
        _judged = [.. Places.Where(p => !task.StationsOnly || p.Place == LandingPlace.Station)];
        ZoneConstraints = [.. _judged.SelectMany(InsideZone)];
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
    public bool IsBowedBeyondZone =>
        Task.Zone.Width is { } width
        && StraightnessZone.LeastWidth(Points(p => p.Low), Points(p => p.High)) > width;

    /// <summary>Whether no place can touch as it stands.</summary>
    public bool StartsFree => !Places.Any(place => place.Touches(default, default));

    /// <summary>
    /// Whether some whole steps, however many, keep all constraints. Looked for about the setting that brings both adjusters
    /// to the target, so that a gap of any size is as near as a small one.
    /// </summary>
    public bool IsFeasibleBeyondTheTravel
    {
        get
        {
            var (left, right) = StepsToTarget();
            ImmutableArray<StepConstraint> about =
            [
                .. Constraints.Select(each =>
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

    public ImmutableArray<Landing> Landings(int left, int right) =>
        [
            .. Places.Select(p => new Landing(
                p.Place,
                p.Station,
                p.Knowledge,
                p.Knowledge.ShiftedBy(Task.Adjusters.Movement(left, right, p.Station), Length.Zero)
            )
            {
                Known = p.Bounds,
            }),
        ];

    /// <summary>
    /// The setting whose worst place misses the zone by least; fewest steps among equals. Where contact is to be avoided, of
    /// those that cannot touch and that some order of turning reaches. None when some place has no bound on a side that the
    /// zone limits, or nothing is sure not to touch.
    /// </summary>
    public NearestSetting? Nearest()
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

        foreach (
            var (left, right, _) in Rows(ClearConstraints, Task.Adjusters.Travel)
                .SelectMany(Rights)
                .Select(s =>
                    (s.Left, s.Right, Key: (Excess(s.Left, s.Right), Math.Abs(s.Left) + Math.Abs(s.Right)))
                )
                .OrderBy(s => s.Key)
        )
        {
            if (!Task.KeepClear || TurningOrder.Find(this, left, right) is not null)
            {
                return Setting(left, right);
            }
        }

        return null;
    }

    /// <summary>
    /// The best right-hand steps of a row and, where contact is to be avoided, those more open by as much as going too far and
    /// coming back may take: the best is no use where no order reaches it.
    /// </summary>
    private IEnumerable<(int Left, int Right)> Rights(StepRow row)
    {
        var best = BestRight(row);
        var most = Task.KeepClear ? Math.Min(row.RightTo, best + (2 * Task.Adjusters.TakeUp) + 2) : best;
        return Enumerable.Range(best, most - best + 1).Select(right => (row.Left, right));
    }

    /// <summary>A setting with the place that misses the zone by most: the first from the left among equals.</summary>
    private NearestSetting Setting(int left, int right)
    {
        var landings = Landings(left, right);
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
        );
    }

    /// <summary>By how much the worst place misses the zone; zero when none does.</summary>
    private decimal Excess(int left, int right) =>
        Math.Max(0, ZoneConstraints.Max(c => c.Shortfall(left, right)));

    /// <summary>
    /// The right-hand steps of a row with the least excess, the fewest among equals: the excess is convex in them, so
    /// halving finds where it has stopped falling and where it begins to rise.
    /// </summary>
    private int BestRight(StepRow row)
    {
        var first = FirstRight(row, right => Excess(row.Left, right) <= Excess(row.Left, right + 1));
        var last = FirstRight(row, right => Excess(row.Left, right) < Excess(row.Left, right + 1));
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

    private static IEnumerable<LeverPlace> PlacesOf(ClickTask task, WidthFit? fit)
    {
        var known = task.Bounds.IsEmpty ? task.Readings : task.Bounds;
        var bounds =
            task.KeepClear && Bent(known) is { } bent ? WidthFit.Through(bent, task.Width)
            : task.Bounds.IsEmpty ? fit
            : WidthFit.Through(known, task.Width, task.Shared);
        if (fit is not null && bounds is not null && !fit.IsRead(Length.Zero))
        {
            yield return new(LandingPlace.LeftEnd, Length.Zero, fit.LeftEnd, bounds.LeftEnd, task.Adjusters);
        }

        foreach (var (reading, bound) in task.Readings.Zip(known).OrderBy(pair => pair.First.Station))
        {
            yield return new(
                LandingPlace.Station,
                reading.Station,
                reading.Knowledge,
                bound.Knowledge,
                task.Adjusters
            );
        }

        if (fit is not null && bounds is not null && !fit.IsRead(task.Width))
        {
            yield return new(
                LandingPlace.RightEnd,
                task.Width,
                fit.RightEnd,
                bounds.RightEnd,
                task.Adjusters
            );
        }
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

    private IEnumerable<StepConstraint> InsideZone(LeverPlace place)
    {
        if (Task.Zone.Lower is { } lower && place.Low is { } low)
        {
            yield return new(place.PerLeftStep, place.PerRightStep, (lower.Millimetres * _span) - low, false);
        }

        if (Task.Zone.Upper is { } upper && place.High is { } high)
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

    private ImmutableArray<StationPoint> Points(Func<LeverPlace, decimal?> end) =>
        [.. _judged.Select(p => new StationPoint(p.Station, Rounding.ToLength((end(p) ?? 0) / _span)))];
}
