using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Minor servicing claimed, and the machine known to have been stopped before anybody was at the unit, by hands or with a
/// gauge, and not to have run while they were. A task that the procedure has done on the running reel, and turned from
/// outside, needs none of it.
/// </summary>
internal static class ClaimedAtRest
{
    private const string ShutDownFirst =
        "Shut the machine down before anybody is at the unit, and enter it; or isolate and lock out.";

    public static IEnumerable<TimelineFault> Faults(DutyFrame duty, ImmutableArray<OrderedEvent> claims)
    {
        if (duty.Record.Tasks.Any(task => HandsAtTheBlades.IsFromOutside(duty, task)))
        {
            return [];
        }

        return duty.Reading.Works.IsEmpty
            ? NotYet(duty)
            : NotStopped(duty, claims).Concat(Ran(duty, claims)).Concat(AtUnitBeforeStop(duty, claims));
    }

    private static IEnumerable<TimelineFault> NotYet(DutyFrame duty)
    {
        if (duty.Reading.IsOpen && duty.Reading.StopsWithoutStart.IsEmpty && !IsStopped(duty.Reading, null))
        {
            yield return TimelineFault.NotYet(
                $"for the claim of minor servicing: {EventWords.Done(TimelineEventKind.MachineShutDown)}",
                ShutDownFirst
            );
        }
    }

    private static IEnumerable<TimelineFault> NotStopped(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> claims
    ) =>
        from work in duty.Reading.Works
        where !IsStopped(duty.Reading, work.Start.Place())
        select Unproven(
            $"Minor servicing is claimed, and the record does not show {EventWords.Done(TimelineEventKind.MachineShutDown)} before work started {duty.Words.AtBy(work.Start)}: that it stood still is not shown.",
            [.. claims, work.Start]
        );

    private static IEnumerable<TimelineFault> Ran(DutyFrame duty, ImmutableArray<OrderedEvent> claims) =>
        from start in duty.Reading.Energisings
        where
            start.Event.Kind == TimelineEventKind.MachineStarted
            && duty.Reading.Works.Any(work =>
                work.Start.Place() < start.Place() && !(work.Stop?.Place() < start.Place())
            )
        select Unproven(
            $"Minor servicing is claimed, and the record shows {EventWords.Done(start.Event.Kind)} {duty.Words.AtBy(start)}, with somebody at work: that nobody was within its reach is not shown.",
            [.. claims, start]
        );

    private static IEnumerable<TimelineFault> AtUnitBeforeStop(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> claims
    )
    {
        var zone = duty.Reading.Frame.Context.Zone;
        var timed =
            from unit in duty.Record.Units
            from entry in unit.Entries
            where entry is not Reading { Observed: Observation.Seen } && entry.At is not null
            let moment = JudgedOrder.MomentOf(entry.At!, zone)
            where
                !IsStopped(duty.Reading, new TimelinePlace(moment, int.MaxValue))
                && !duty.Reading.Works.Any(work => !IsStopped(duty.Reading, work.Start.Place()))
            orderby moment
            select (unit.Id, entry.At);
        return timed
            .Take(1)
            .Select(first =>
                Unproven(
                    $"Minor servicing is claimed, and an entry of the bench log at {first.At!.Text} has somebody at {first.Id}, with the machine not shown as shut down by then.",
                    claims
                )
            );
    }

    /// <summary>Shut down, or held off in some other way, and not started since.</summary>
    private static bool IsStopped(TimelineReading reading, TimelinePlace? at)
    {
        var last = reading.Events.LastOrDefault(entry =>
            (at is null || entry.Place() < at) && (IsStop(entry) || IsStart(entry))
        );
        return last is not null && IsStop(last);
    }

    private static bool IsStart(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised;

    private static bool IsStop(OrderedEvent entry) =>
        entry.Event.Kind
            is TimelineEventKind.MachineShutDown
                or TimelineEventKind.TestEnded
                or TimelineEventKind.KeyRemoved
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.IsolationVerified
        || entry.Event is { Kind: TimelineEventKind.IsolatorOperated, Position: not IsolatorPosition.On };

    private static TimelineFault Unproven(string text, ImmutableArray<OrderedEvent> entries) =>
        new(Verdict.Unproven, FindingReason.StepMissing, text, entries, ShutDownFirst);
}
