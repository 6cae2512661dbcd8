using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// No adjuster was turned while the reel ran, unless it is the one of the clearance and the procedure names the control by
/// which that is turned from outside the danger zone; nor between two runs, click by click, before the stop that the
/// procedure states for it, or, of any other adjuster and where it states none in the words of entries, outside the person's
/// own protected interval. At the very time of a start, outside all work, the record cannot tell. A turn without a time is told
/// from a run by the order of the log alone.
/// </summary>
internal static class AdjusterUntouchedDuty
{
    private const string Act =
        "Stop the reel as the procedure says before the adjuster is touched, also for a single click.";

    /// <summary>More times than these are told by the first few and the last.</summary>
    private const int MostTimes = 6;

    private static readonly FrozenDictionary<string, TimelineEventKind> Kinds =
        Enum.GetValues<TimelineEventKind>()
            .ToFrozenDictionary(kind => Snake(kind.ToString()), StringComparer.Ordinal);

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty);
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no run of the reel.");
        }

        var turns = Turns(duty).ToImmutableArray();
        if (turns.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no adjuster turned in this job.");
        }

        var touched = turns
            .Select(turn => Fault(duty, runs, turn))
            .OfType<Touched>()
            .GroupBy(fault => (fault.Run, fault.What))
            .ToList();
        if (touched.Count > 0)
        {
            return TimelineOutcome.OfFaults([.. touched.Select(alike => Together(duty, [.. alike]))]) with
            {
                Evidence =
                [
                    .. touched
                        .SelectMany(alike => alike)
                        .Select(fault => fault.Turn.Pointer)
                        .Order(StringComparer.Ordinal),
                ],
            };
        }

        // A start that only brought the machine or took it out asks no time of a turn.
        var ofJob = runs.Where(run => run.IsOfJob).ToImmutableArray();
        if (ofJob.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no run of the reel in the job.");
        }

        var timeless = turns.Where(turn => turn.Moment is null).ToImmutableArray();
        var untold = timeless
            .Where(turn => !TurnsWithoutTime.IsBeforeRuns(duty, ofJob, turn.At, turn.Index))
            .ToImmutableArray();
        if (!untold.IsEmpty)
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "The record shows the reel run and adjusters turned, and does not say when each was turned.",
                [.. untold.Select(turn => turn.Pointer).Order(StringComparer.Ordinal)],
                "Enter the time of each turn on a job in which the reel is run."
            );
        }

        var met = TimelineOutcome.Met(
            duty.Reading,
            "The record shows no adjuster turned while the reel ran, nor before the stop that the procedure asks for.",
            [.. ofJob.Select(run => run.Start)]
        );
        return timeless.IsEmpty
            ? met
            : met with
            {
                Notices =
                [
                    .. met.Notices,
                    "Of turns without a time the order of the log alone tells that they were before the run.",
                ],
            };
    }

    private static IEnumerable<Turn> Turns(DutyFrame duty)
    {
        for (var unit = 0; unit < duty.Record.Units.Length; unit++)
        {
            var entries = duty.Record.Units[unit].Entries;
            for (var index = 0; index < entries.Length; index++)
            {
                if (entries[index] is Adjustment turned)
                {
                    yield return new(
                        duty.Record.Units[unit].Id,
                        turned,
                        turned.At is { } at ? JudgedOrder.MomentOf(at, duty.Context.Zone) : null,
                        Pointers.Entry(unit, index),
                        unit,
                        index
                    );
                }
            }
        }
    }

    private static Touched? Fault(DutyFrame duty, ImmutableArray<MachineRun> runs, Turn turn)
    {
        if (turn.Moment is not { } moment)
        {
            return null;
        }

        return AfterAStart(duty, runs, turn, moment) ?? InTheMinuteOfAStart(duty, runs, turn, moment);
    }

    private static Touched? AfterAStart(
        DutyFrame duty,
        ImmutableArray<MachineRun> runs,
        Turn turn,
        Moment moment
    )
    {
        var last = runs.LastOrDefault(run => run.Start.Moment < moment);
        if (last is null)
        {
            return null;
        }

        // The procedure of a task has its control and its stop for the clearance, and for no other adjuster.
        var task =
            turn.Entry.Adjuster == AdjusterKind.Clearance
                ? EnergisedTaskDuties.Listed(duty, last.Task)
                : null;
        if (last.End is null || moment < last.End.Moment)
        {
            return task is { AdjusterControl: not null }
                ? null
                : new(turn, last, $"while the reel was running ({last.Named})");
        }

        if (!last.IsOfJob)
        {
            // After the machine only came or left, a turn is judged as hands at a unit.
            return null;
        }

        if (task is not null && StopOf(task.Stop) is { IsEmpty: false } stop)
        {
            var missing = stop.Where(kind =>
                    !duty
                        .Reading.Of(kind)
                        .Any(entry => entry.Place() > last.Start.Place() && entry.Moment <= moment)
                )
                .ToImmutableArray();
            return missing.IsEmpty
                ? null
                : new(
                    turn,
                    last,
                    $"after {last.Named}; the procedure asks for a stop first, and the record does not show {TimelineWords.List(missing.Select(EventWords.Done))}"
                );
        }

        // After every entry of the same minute: times are often noted to the minute.
        return IsProtected(duty, turn, new TimelinePlace(moment, int.MaxValue))
            ? null
            : new(
                turn,
                last,
                $"after {last.Named} and before everything was isolated, locked and verified again"
            );
    }

    // Of a turn at the very time of a start nothing tells whether the reel ran, unless somebody's work has it, or its protection.
    private static Touched? InTheMinuteOfAStart(
        DutyFrame duty,
        ImmutableArray<MachineRun> runs,
        Turn turn,
        Moment moment
    )
    {
        var begun = runs.LastOrDefault(run =>
            run.Start.Moment == moment && !run.IsStartMissing && run.IsOfJob
        );
        if (
            begun is null
            || duty.Reading.HandsByTheLog.Any(hands =>
                hands.Pointer == turn.Pointer && hands.IsDuringWork(duty.Reading)
            )
            || (
                turn.Entry.Adjuster == AdjusterKind.Clearance
                && EnergisedTaskDuties.Listed(duty, begun.Task) is { AdjusterControl: not null }
            )
            || IsProtected(duty, turn, new TimelinePlace(moment, int.MinValue))
        )
        {
            return null;
        }

        return new(
            turn,
            begun,
            $"at the very time at which the reel was set running ({begun.Named}), outside all hands-on work: which came first it cannot tell"
        )
        {
            IsUntold = true,
        };
    }

    /// <summary>All the turns about which the same is to be said, in one sentence: units, how often, when.</summary>
    private static TimelineFault Together(DutyFrame duty, ImmutableArray<Touched> alike)
    {
        var (first, run, what) = alike[0];
        var inTime = alike.OrderBy(fault => fault.Turn.Moment).Select(fault => fault.Turn).ToImmutableArray();
        var units = TimelineWords.List(
            inTime.Select(turn => turn.Unit.Text).Distinct(StringComparer.Ordinal)
        );
        var told = new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            alike.Length == 1
                ? $"The record shows an adjuster of {first.Unit} turned at {Time(first)}, {what}."
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"The record shows adjusters of {units} turned {alike.Length} times at {Times(inTime.Select(Time))}, {what}."
                ),
            [.. new[] { run.Start, run.End }.OfType<OrderedEvent>()],
            Act
        );
        return alike[0].IsUntold ? LeadUpOutcome.Untold(told) : told;

        string Time(Turn turn) => duty.Words.Time(turn.Entry.At!);
    }

    // Told one by one while they can be read at a glance; every turn stands in the evidence.
    private static string Times(IEnumerable<string> times)
    {
        var all = times.Distinct(StringComparer.Ordinal).ToImmutableArray();
        return all.Length <= MostTimes
            ? TimelineWords.List(all)
            : $"{string.Join(", ", all[..(MostTimes - 1)])} and so on until {all[^1]}";
    }

    private static bool IsProtected(DutyFrame duty, Turn turn, TimelinePlace place)
    {
        if (duty.Reading.Protection is not { } protection)
        {
            return false;
        }

        IEnumerable<Id<Participant>> people = turn.Entry.By is { } by ? [by] : duty.Reading.HandsIn;
        return people.Any(person => protection.ProtectedFor(person).Contains(place));
    }

    /// <summary>
    /// A stop written in the words of entries, such as <c>machine_shut_down, seen_at_rest</c>; empty: in other words.
    /// </summary>
    internal static ImmutableArray<TimelineEventKind> StopOf(string stop)
    {
        var parts = stop.Split(
            [',', ';'],
            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
        );
        var kinds = ImmutableArray.CreateBuilder<TimelineEventKind>(parts.Length);
        foreach (var part in parts)
        {
            if (!Kinds.TryGetValue(part.Replace(' ', '_'), out var kind))
            {
                return [];
            }

            kinds.Add(kind);
        }

        return kinds.ToImmutable();
    }

    private static string Snake(string name)
    {
        var text = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0)
            {
                text.Append('_');
            }

            text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }

    /// <summary>A turn at the wrong time.</summary>
    /// <param name="Turn">The turn.</param>
    /// <param name="Run">The run that it stands in or after.</param>
    /// <param name="What">What is wrong with its time.</param>
    private sealed record Touched(Turn Turn, MachineRun Run, string What)
    {
        /// <summary>Whether the record cannot tell which came first.</summary>
        public bool IsUntold { get; init; }
    }

    private sealed record Turn(
        Id<UnitWork> Unit,
        Adjustment Entry,
        Moment? Moment,
        string Pointer,
        int At,
        int Index
    );
}
