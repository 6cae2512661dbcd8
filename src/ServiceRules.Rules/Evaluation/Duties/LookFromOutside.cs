using System.Collections.Frozen;
using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A look by eye from outside the guards: the record says that hands stayed out of the reach of the blades, and nothing in it
/// takes a hand to the machine: that the look itself is entered as work does not, for what was done decides. Such a look needs the machine stopped and seen at rest, and no lockout. One entry of hands, of a guard
/// that was off, or of a lock, and the job is judged as any other.
/// </summary>
internal static class LookFromOutside
{
    /// <summary>Why the duties of isolation and the trade's own steps do not apply to it.</summary>
    public const string NotAsked =
        "The record says that hands stayed out of the reach of the blades, and shows nothing but looks from outside: no isolation is asked.";

    private const string Act =
        "Stop the machine and see everything at rest before anybody looks; enter what was done, as a late entry where it was.";

    private static readonly FrozenSet<ServiceTask> Looks = new[]
    {
        ServiceTask.Inspect,
        ServiceTask.DailyCheck,
    }.ToFrozenSet();

    private static readonly FrozenSet<TimelineEventKind> AtTheMachine = new[]
    {
        TimelineEventKind.DriveDisengaged,
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.ParkingBrakeSet,
        TimelineEventKind.EnergyReviewed,
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.KeyRemoved,
        TimelineEventKind.SeenAtRest,
        TimelineEventKind.AffectedNotifiedBefore,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
        TimelineEventKind.AreaInspected,
        TimelineEventKind.PeopleClearChecked,
        TimelineEventKind.RemovalNotified,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.CutOutsProved,
        TimelineEventKind.SafetyDefectFound,
        TimelineEventKind.HandedBack,
    }.ToFrozenSet();

    /// <summary>Whether a job is one.</summary>
    public static bool Is(JobFrame frame) =>
        frame.Record is { HandsInBladeZone: false, Place: WorkPlace.OnMachine }
        && frame.PlaceAgainst.IsEmpty
        && frame.UnitsInPlace.IsEmpty
        && frame.PartsOfAMachine.IsEmpty
        && frame.Record.Tasks.All(Looks.Contains)
        && frame.Record.Timeline.All(entry => AtTheMachine.Contains(entry.Kind))
        && frame.Record.Units.SelectMany(unit => unit.Entries).All(IsLook);

    /// <summary>What it needs: the machine shut down and seen at rest, before any look that has a time, and not started again by then.</summary>
    public static CheckOutcome Judge(JobFrame frame)
    {
        var reading = TimelineReading.Of(frame);
        var looks = frame
            .Record.Units.SelectMany(unit => unit.Entries)
            .Select(entry => entry.At)
            .OfType<RecordedTime>()
            .Select(at => JudgedOrder.MomentOf(at, frame.Context.Zone))
            .Concat(
                reading
                    .Of(TimelineEventKind.WorkStarted, TimelineEventKind.WorkStopped)
                    .Select(entry => entry.Moment)
            )
            .ToImmutableArray();
        var rest = reading
            .Of(TimelineEventKind.SeenAtRest)
            .FirstOrDefault(seen =>
                StoppedBefore(reading, seen) is not null && looks.All(look => look >= seen.Moment)
            );
        var running =
            !reading.Running.And(reading.AnyWork).Intervals.IsEmpty
            || looks.Any(look =>
                reading.Running.Contains(new TimelinePlace(look, int.MaxValue))
                && reading.Running.Contains(new TimelinePlace(look, int.MinValue))
            );
        if (rest is not null && !running)
        {
            return TimelineOutcome.Met(
                reading,
                $"The record says that hands stayed out of the reach of the blades, and shows nothing but looks, with the machine shut down and everything seen at rest {reading.Words.AtBy(rest)} before them.",
                [StoppedBefore(reading, rest)!, rest]
            );
        }

        const string needs = "the machine shut down and then everything seen at rest";
        return reading.IsOpen && !running
            ? TimelineOutcome.OfFaults([TimelineFault.NotYet($"{needs}, before a look from outside", Act)])
            : TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record says that hands stayed out of the reach of the blades, and shows nothing but looks: they need no lockout, and {needs} before them, which it does not show{(running ? " (the machine ran)" : string.Empty)}.",
                reading.Events.Evidence(),
                Act
            );
    }

    private static OrderedEvent? StoppedBefore(TimelineReading reading, OrderedEvent seen) =>
        reading.Events.LastOrDefault(entry =>
            entry.Place() < seen.Place()
            && entry.Event.Kind is TimelineEventKind.MachineShutDown or TimelineEventKind.MachineStarted
        )
            is { Event.Kind: TimelineEventKind.MachineShutDown } stopped
        && !SaidOtherwise.By(stopped.Event)
        && !SaidOtherwise.By(seen.Event)
            ? stopped
            : null;

    // Play in a bearing is felt, however it is entered.
    private static bool IsLook(BenchEntry entry) =>
        entry is Reading { Observed: Observation.Seen } && BenchActs.Of(entry) is null;
}
