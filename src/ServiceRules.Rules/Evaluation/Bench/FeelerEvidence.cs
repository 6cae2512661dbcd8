using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What feelers tried at one place prove of the gap there, earlier tries carried through known steps of its own
/// adjuster as interval constraints.
/// </summary>
internal sealed class FeelerEvidence
{
    private readonly ImmutableArray<BenchEntry> entries;
    private readonly LimitSheet sheet;
    private readonly JobDays days;

    private readonly ImmutableArray<StepsTried> steps;

    /// <param name="entries">The bench log.</param>
    /// <param name="sheet">The sheet with its steps.</param>
    /// <param name="days">The days of the job.</param>
    /// <param name="steps">What this log tells of the steps really obtained.</param>
    public FeelerEvidence(
        ImmutableArray<BenchEntry> entries,
        LimitSheet sheet,
        JobDays days,
        ImmutableArray<StepsTried> steps
    )
    {
        this.entries = entries;
        this.sheet = sheet;
        this.days = days;
        this.steps = steps;
    }

    /// <summary>The feelers tried since anything disturbed the quantity, in order.</summary>
    public static ImmutableArray<FeelerTried> AsLeft(IEnumerable<LoggedReading> readings) =>
        [
            .. readings
                .Where(reading => reading is { Observed: Observation.FeelerTest, Since.IsNone: true })
                .Select(Tried),
        ];

    /// <summary>Weighs the feelers tried at one place. Nothing when none was tried since its adjuster was last turned.</summary>
    public Weighed Weigh(IReadOnlyList<LoggedReading> atPlace) =>
        OfEpochs(atPlace) with
        {
            LeavesOutTries = atPlace.Any(reading =>
                reading is { Observed: Observation.FeelerTest, Since.IsStale: false }
                && OwnTurns(reading).Any(turn => turn.Amount is AdjustmentAmount.Distance)
            ),
        };

    private Weighed OfEpochs(IReadOnlyList<LoggedReading> atPlace)
    {
        var epochs = atPlace
            .Where(reading => reading.Observed is Observation.FeelerTest && !reading.Since.IsStale)
            .GroupBy(OwnTurnsSince)
            .OrderBy(epoch => epoch.Key)
            .ToList();
        if (epochs.Count == 0 || epochs[0].Key != 0)
        {
            return Weighed.Nothing;
        }

        var tries = epochs[0].ToList();
        var latest = Agreed.Of([.. tries.Select(reading => Constraint(reading, Carriage.None))]);
        var contradiction = latest.Contradicting is var (first, second)
            ? new Contradiction(Said(tries[first]), tries[first].At, Said(tries[second]), tries[second].At)
            : null;
        if (latest.Interval is not { } interval)
        {
            return new(null, true, latest.Doubt)
            {
                Contested = latest.Contested,
                Contradiction = contradiction,
            };
        }

        if (contradiction is not null)
        {
            return new(
                interval,
                true,
                latest.Doubt is FindingReason.UncertaintyUnknown ? latest.Doubt : FindingReason.Conflicting
            )
            {
                Contradiction = contradiction,
            };
        }

        List<Agreed> earlier =
        [
            .. epochs
                .Skip(1)
                .Select(Carried)
                .TakeWhile(carried => carried is not null)
                .Select(carried => carried!),
        ];
        var doubt = Gravest([latest.Doubt, .. earlier.Select(carried => carried.Doubt)]);
        var sure = latest.SureInterval is { } certain
            ? Fold(certain, earlier.Select(carried => carried.SureInterval))
            : null;
        // Sure feelers that bound the gap from both sides need nothing from doubtful ones; from those of which nothing is
        // known there is nothing to be had.
        if (sure is { Width: not null } || (sure is not null && doubt is FindingReason.UncertaintyUnknown))
        {
            return new(sure, false, FindingReason.None)
            {
                CountsEarlierTries = sure != latest.SureInterval,
                IsReadTwice = latest.IsRepeated,
            };
        }

        if (Fold(interval, earlier.Select(carried => carried.Interval)) is { } narrowed)
        {
            return new(narrowed, false, doubt)
            {
                CountsEarlierTries = narrowed != interval,
                IsReadTwice = latest.IsRepeated,
            };
        }

        // Tried again and found the same: what is there now outweighs what the steps should have made of it. Tried once
        // only, it still shows a breach, and proves nothing met.
        return latest.IsRepeated
            ? new(interval, false, latest.Doubt) { IsReadTwice = true }
            : new(interval, true, FindingReason.Conflicting);
    }

    /// <summary>What all of them allow; none when they exclude one another. Those that say nothing are passed over.</summary>
    private static LengthInterval? Fold(LengthInterval start, IEnumerable<LengthInterval?> earlier)
    {
        var met = start;
        foreach (var carried in earlier.OfType<LengthInterval>())
        {
            if (met.Meet(carried) is not IntervalMeeting.Overlap overlap)
            {
                return null;
            }

            met = overlap.Interval;
        }

        return met;
    }

    private static FindingReason Gravest(List<FindingReason> doubts) =>
        doubts.Contains(FindingReason.GaugeUnfit) ? FindingReason.GaugeUnfit
        : doubts.Contains(FindingReason.GaugeCannotRead) ? FindingReason.GaugeCannotRead
        : doubts.Find(doubt => doubt != FindingReason.None);

    private static FeelerTried Tried(LoggedReading reading)
    {
        var test = (Observation.FeelerTest)reading.Observed;
        return new(Thickness(test), Tolerance(reading), test.Passes, reading.Pointer)
        {
            Stacked = test.Feelers.Length > 1 ? test.Feelers : [],
            ToleranceNotBelieved = FeelerTolerance.IsTooFine(reading.Gauge?.Tolerance)
                ? reading.Gauge!.Tolerance
                : null,
            IsByRootSum = test.Feelers.Length > 1 && reading.Gauge?.Stacking is StackRule.RootSum,
        };
    }

    private static Length Thickness(Observation.FeelerTest test) =>
        test.Feelers.Aggregate(Length.Zero, (sum, feeler) => sum + feeler.Value);

    private static Length? Tolerance(LoggedReading reading) =>
        OfEach(reading.Gauge) is { } each
            ? FeelerStack.Tolerance(
                each,
                ((Observation.FeelerTest)reading.Observed).Feelers.Length,
                reading.Gauge!.Stacking ?? StackRule.WorstCase
            )
            : null;

    private static string Said(LoggedReading reading)
    {
        var tried = Tried(reading);
        return $"the {tried.Named(reading.System!.Value)} feeler {(tried.Passes ? "passes" : "does not pass")}";
    }

    /// <summary>Where the register has the feelers, what it says of one is their tolerance at the least.</summary>
    private static Length? OfEach(Instrument? gauge) =>
        gauge?.Tolerance is not { } stated ? null
        : gauge.Register?.Entry?.ExpandedUncertainty.Value.Abs is { } registered
            ? Length.Max(FeelerTolerance.Believed(stated), registered)
        : FeelerTolerance.Believed(stated);

    private int OwnTurnsSince(LoggedReading reading) => OwnTurns(reading).Count();

    private IEnumerable<Adjustment> OwnTurns(LoggedReading reading) =>
        entries
            .Skip(reading.Index + 1)
            .OfType<Adjustment>()
            .Where(turn => AdjustedQuantity.SetBy(turn.Adjuster) == reading.Quantity);

    private static IEnumerable<Adjustment> EachSide(Adjustment turn) =>
        turn.Side is Side.Both ? [turn with { Side = Side.Left }, turn with { Side = Side.Right }] : [turn];

    /// <summary>What an earlier try says of the gap now; none when a turn since then is not known in full.</summary>
    private Agreed? Carried(IEnumerable<LoggedReading> epoch)
    {
        List<FeelerConstraint> constraints = [];
        foreach (var reading in epoch)
        {
            if (reading.Place.Station is not { } station || MovedSince(reading, station) is not { } moved)
            {
                return null;
            }

            constraints.Add(Constraint(reading, moved));
        }

        // What contradicted itself before the turn tells nothing of the gap after it.
        var agreed = Agreed.Of([.. constraints]);
        return agreed.Contradicting is null ? agreed : agreed with { Interval = null, SureInterval = null };
    }

    private Carriage? MovedSince(LoggedReading reading, Length station)
    {
        var moved = Carriage.None;
        // Each side has its own adjuster; of one, steps there and back are off by as much and drop out.
        foreach (
            var side in OwnTurns(reading).SelectMany(EachSide).GroupBy(turn => (turn.Adjuster, turn.Side))
        )
        {
            var counted = Length.Zero;
            foreach (var turn in side)
            {
                if (BenchSteps.MovementAt(station, turn, sheet) is not { } by)
                {
                    return null;
                }

                counted += by;
            }

            if (counted != Length.Zero && StepInForce.Carrying(sheet, steps, side.Key.Adjuster) is { } range)
            {
                var inSteps = counted.Millimetres / sheet.Of(side.Key.Adjuster)!.OneStep!.Value.Millimetres;
                moved = moved.And(
                    (range.Least + range.Most) * 0.5m * inSteps,
                    (range.Most - range.Least) * 0.5m * Math.Abs(inSteps)
                );
            }
        }

        return moved;
    }

    /// <summary>How far tries are carried, and how far that may be off either way.</summary>
    private readonly record struct Carriage(Length By, Length Doubt)
    {
        public static Carriage None { get; }

        public Carriage And(Length by, Length doubt) => new(By + by, Doubt + doubt);
    }

    private FeelerConstraint Constraint(LoggedReading reading, Carriage moved)
    {
        var tried = Tried(reading);
        var tolerance = tried.Tolerance ?? Length.Zero;
        var proven = tried.Passes
            ? LengthInterval.FeelerPasses(tried.Thickness, tolerance)
            : LengthInterval.FeelerDoesNotPass(tried.Thickness, tolerance);
        var unfit = reading.Gauge is { } gauge
            ? GaugeFindings.Unfitness(gauge, days)
            : FindingReason.UncertaintyUnknown;
        var doubt =
            unfit != FindingReason.None ? unfit
            : tried.Tolerance is null ? FindingReason.UncertaintyUnknown
            : reading.Misused is not null ? FindingReason.GaugeCannotRead
            : FindingReason.None;
        return new(
            tried.Thickness,
            tried.Passes,
            (LengthInterval)
                proven.ShiftedBy(
                    moved.By,
                    moved.Doubt
                        + (doubt is FindingReason.None ? reading.Since.Shift : reading.Since.DoubtedShift)
                ),
            doubt
        );
    }
}
