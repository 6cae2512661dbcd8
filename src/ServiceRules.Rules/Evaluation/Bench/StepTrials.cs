using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// Finds in a bench log what tells the step of an adjuster: a place read, known steps turned one way, the same place
/// read again. A turn back in between takes up lost motion, so it tells nothing clean.
/// </summary>
internal sealed class StepTrials(UnitWork work, LimitSheet sheet, JobDays days)
{
    // Nearer to its pivot than this share of a step, the lever makes more of the gauge than of the step.
    private const decimal LeastShare = 0.5m;

    // A step is a difference of two readings by one gauge: what heat did to both drops out.
    private readonly PlaceEvidence evidence = new([], sheet, days, workshop: null, steps: []);

    public ImmutableArray<StepsTried> In(IEnumerable<LoggedReading> readings) =>
        [
            .. readings
                .Where(reading => SteppedAdjuster(reading.Quantity) is not null)
                .GroupBy(reading => (reading.Quantity, reading.Place))
                .OrderBy(group => group.Key.Quantity)
                .ThenBy(group => group.Key.Place)
                .SelectMany(group =>
                    AtPlace(
                        [.. group.OrderBy(reading => reading.Index)],
                        SteppedAdjuster(group.Key.Quantity)!
                    )
                ),
        ];

    /// <summary>
    /// The same of what a step carries along: a quantity that the sheet says is shifted by it; with any gauge, or only with
    /// gauges that prove something.
    /// </summary>
    public ImmutableArray<StepsTried> Carried(
        IReadOnlyCollection<LoggedReading> readings,
        bool withAnyGauge = false
    ) =>
        [
            .. sheet
                .Adjusters.Where(adjuster => adjuster.OneStep is not null)
                .SelectMany(adjuster =>
                    readings
                        .Where(reading => IsShifted(adjuster, reading.Quantity))
                        .GroupBy(reading => (reading.Quantity, reading.Place))
                        .OrderBy(group => group.Key.Quantity)
                        .ThenBy(group => group.Key.Place)
                        .SelectMany(group =>
                            AtPlace([.. group.OrderBy(reading => reading.Index)], adjuster, withAnyGauge)
                        )
                ),
        ];

    private static bool IsShifted(Adjuster adjuster, MeasuredQuantity quantity) =>
        adjuster.Disturbs.Any(disturbed =>
            disturbed.Quantity == quantity && disturbed.ShiftPerStep is not null
        );

    private Adjuster? SteppedAdjuster(MeasuredQuantity quantity) =>
        FineAdjuster(quantity) is { } adjuster
        && (adjuster.OneStep is not null || adjuster.Thread is not null)
            ? adjuster
            : null;

    private Adjuster? FineAdjuster(MeasuredQuantity quantity) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind ? sheet.Of(kind) : null;

    /// <summary>The same of turns that were noted as distances: what tells whether the adjuster moved as it was said to.</summary>
    public ImmutableArray<DistanceTried> ByDistance(IEnumerable<LoggedReading> readings) =>
        [
            .. readings
                // Of these nobody doubts which way is more: open a gap, raise a height.
                .Where(reading =>
                    reading.Quantity
                        is MeasuredQuantity.Clearance
                            or MeasuredQuantity.HeightOfCut
                            or MeasuredQuantity.GroomerHeight
                    && FineAdjuster(reading.Quantity) is not null
                )
                .GroupBy(reading => (reading.Quantity, reading.Place))
                .OrderBy(group => group.Key.Quantity)
                .ThenBy(group => group.Key.Place)
                .SelectMany(group =>
                    Stretches([.. group.OrderBy(reading => reading.Index)], withAnyGauge: false)
                        .Select(pair => Moved(pair.Before, pair.After, FineAdjuster(group.Key.Quantity)!))
                        .OfType<DistanceTried>()
                ),
        ];

    private IEnumerable<StepsTried> AtPlace(
        List<LoggedReading> readings,
        Adjuster adjuster,
        bool withAnyGauge = false
    ) =>
        Stretches(readings, withAnyGauge)
            .Select(pair => Tried(pair.Before, pair.After, adjuster))
            .OfType<StepsTried>();

    /// <summary>Stretches of readings that follow one another, something turned between.</summary>
    private IEnumerable<(Stretch Before, Stretch After)> Stretches(
        List<LoggedReading> readings,
        bool withAnyGauge
    )
    {
        var stretches = new List<List<LoggedReading>>();
        foreach (var reading in readings)
        {
            if (stretches.Count == 0 || Between(stretches[^1][^1], reading).Count > 0)
            {
                stretches.Add([]);
            }

            stretches[^1].Add(reading);
        }

        var known = stretches.ConvertAll(stretch => new Stretch(
            stretch,
            Proven(stretch[0].Place, stretch, withAnyGauge) is { } place
                ? (place, new(place.Knowledge!, place.Shared))
                : null
        ));
        return known.Zip(known.Skip(1));
    }

    private StepsTried? Tried(Stretch before, Stretch after, Adjuster adjuster)
    {
        var (quantity, place) = (before.Readings[0].Quantity, before.Readings[0].Place);
        if (
            Counted(Between(before.Readings[^1], after.Readings[0]), adjuster, place.Station, InSteps)
                is not { } steps
            || Math.Abs(steps.AtPlace) < LeastShare
            || before.Proven is not var (first, start)
            || after.Proven is not var (second, end)
        )
        {
            return null;
        }

        return new(
            adjuster.Kind,
            quantity,
            place.Station,
            place.Blade,
            (int)Math.Max(steps.Left, steps.Right),
            StepTrial.Between(steps.AtPlace, start, end),
            second.System,
            [.. first.Evidence, .. second.Evidence]
        )
        {
            TellsOf = TellsOf(steps.Left, steps.Right, adjuster, place.Station),
            ReadFrom = before.Readings[^1].Index,
        };
    }

    private Side? TellsOf(decimal left, decimal right, Adjuster adjuster, Length? station)
    {
        if (left == 0 || right == 0)
        {
            return left == 0 ? Side.Right : Side.Left;
        }

        if (station is not { } at)
        {
            return Side.Both;
        }

        var ends =
            adjuster is { LeftAt.Value: var first, RightAt.Value: var last } && first < last
                ? first + last
                : sheet.Width.Governing.Value;
        return (at * 2).CompareTo(ends) switch
        {
            < 0 when left >= right => Side.Left,
            > 0 when right >= left => Side.Right,
            _ => null,
        };
    }

    private DistanceTried? Moved(Stretch before, Stretch after, Adjuster adjuster)
    {
        var (quantity, place) = (before.Readings[0].Quantity, before.Readings[0].Place);
        if (
            Counted(Between(before.Readings[^1], after.Readings[0]), adjuster, place.Station, InMillimetres)
                is not { } moved
            || Math.Max(moved.Left, moved.Right) is not (> 0 and var turned)
            || Math.Abs(moved.AtPlace) < LeastShare * turned
            || before.Proven is not var (_, start)
            || after.Proven is not var (second, end)
        )
        {
            return null;
        }

        return new(
            adjuster.Kind,
            quantity,
            place.Station,
            Length.FromMillimetres(turned),
            StepTrial.Between(moved.AtPlace, start, end),
            second.System
        )
        {
            ReadAt = after.Readings[0].Index,
        };
    }

    /// <summary>Readings at one place with nothing turned between, and what they prove: one reading to both its trials.</summary>
    private sealed record Stretch(
        List<LoggedReading> Readings,
        (PlaceKnown Place, TrialReading Reading)? Proven
    );

    private PlaceKnown? Proven(PlaceKey place, List<LoggedReading> readings, bool withAnyGauge) =>
        evidence.Known(place, [.. readings.Select(reading => reading.AsTaken())])
            is { Knowledge: not null, State: KnownState.Fresh } known
        && (withAnyGauge || known.Doubt is FindingReason.None)
            ? known
            : null;

    /// <summary>What disturbed the quantity between two of its readings.</summary>
    private List<BenchEntry> Between(LoggedReading earlier, LoggedReading later) =>
        [
            .. work
                .Entries.Skip(earlier.Index + 1)
                .Take(later.Index - earlier.Index - 1)
                .Where(entry => Disturbs(entry, earlier.Quantity)),
        ];

    private bool Disturbs(BenchEntry entry, MeasuredQuantity quantity)
    {
        var alone = new Disturbances(sheet);
        alone.Add(entry);
        return !alone.On(quantity).IsNone;
    }

    /// <summary>
    /// What was turned as it counts at the place; none unless every entry turns this adjuster by an amount of one kind, all one
    /// way.
    /// </summary>
    private static (decimal AtPlace, decimal Left, decimal Right)? Counted(
        List<BenchEntry> entries,
        Adjuster adjuster,
        Length? station,
        Func<AdjustmentAmount, decimal?> amountOf
    )
    {
        var turns = entries.OfType<Adjustment>().Where(turn => turn.Adjuster == adjuster.Kind).ToList();
        if (
            turns.Count == 0
            || turns.Count < entries.Count
            || turns.Exists(turn => turn.Direction is null || turn.Direction != turns[0].Direction)
        )
        {
            return null;
        }

        var (left, right) = (0m, 0m);
        foreach (var turn in turns)
        {
            if (amountOf(turn.Amount) is not { } amount)
            {
                return null;
            }

            left += turn.Side is Side.Right ? 0 : amount;
            right += turn.Side is Side.Left ? 0 : amount;
        }

        // What both sides were turned counts everywhere alike, however it was written down.
        var both = Math.Min(left, right);
        if (
            Counted(Side.Left, left - both, adjuster, station) is not { } byLeft
            || Counted(Side.Right, right - both, adjuster, station) is not { } byRight
        )
        {
            return null;
        }

        var opens = turns[0].Direction is AdjustDirection.Open or AdjustDirection.Raise;
        var atPlace = both + byLeft + byRight;
        return (opens ? atPlace : -atPlace, left, right);
    }

    private static decimal? Counted(Side side, decimal amount, Adjuster adjuster, Length? station) =>
        amount == 0 ? 0 : amount * Share(side, adjuster, station);

    private static decimal? InSteps(AdjustmentAmount amount) =>
        amount is AdjustmentAmount.Steps { Count: <= AdjusterPair.MostSteps and var count } ? count : null;

    private static decimal? InMillimetres(AdjustmentAmount amount) =>
        amount is AdjustmentAmount.Distance { Value: var noted } ? noted.Value.Millimetres : null;

    /// <summary>What one step of one side does at a station, in steps; none where that depends on what nobody stated.</summary>
    private static decimal? Share(Side side, Adjuster adjuster, Length? station)
    {
        if (
            station is not { } at
            || adjuster is not { LeftAt.Value: var left, RightAt.Value: var right }
            || left >= right
        )
        {
            return null;
        }

        var fromLeft = (at - left).Millimetres / (right - left).Millimetres;
        return side is Side.Right ? fromLeft : 1m - fromLeft;
    }
}
