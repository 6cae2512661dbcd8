using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Everybody with hands in, also alone, holds every source that can be switched on by a lock of their own, or by the plug
/// or key that they keep where no lock fits, for as long as their hands are in: also between taking a lock off and hanging
/// it again in the middle of a job.
/// </summary>
internal static class OwnDeviceThroughWorkDuty
{
    private const string Act = "Hang your own lock on every source before hands go in, and leave it on.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.LackingIsolated(duty) is { } lacking)
        {
            return lacking;
        }

        var reading = duty.Reading;
        if (reading.HandsIn.IsEmpty)
        {
            return TimelineOutcome.NobodyNamed();
        }

        var protection = reading.Protection!;
        var faults = reading
            .HandsIn.SelectMany(person =>
                reading.FirstWorkOf(person) is null
                    ? WithoutWork(duty, protection, person)
                    : reading
                        .Works.Where(work => work.Person == person)
                        .SelectMany(work => DuringWork(duty, protection, work))
            )
            .Concat(WithoutEnd(duty))
            .Concat(reading.StopsWithoutStart.Select(stop => WithoutStart(duty, protection, stop)))
            .ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                reading,
                reading.Works.IsEmpty
                    ? "The record shows everybody with hands in holding every source by a lock or control of their own. No hands-on work has started."
                    : $"The record shows {TimelineWords.List(reading.HandsIn.Where(person => reading.FirstWorkOf(person) is not null).Select(person => person.Text))} at work only while holding every source by a lock or control of their own.",
                RestsOn(reading)
            );
    }

    private static IEnumerable<TimelineFault> WithoutWork(
        DutyFrame duty,
        ProtectionReading protection,
        Id<Participant> person
    )
    {
        var reading = duty.Reading;
        var told = reading.HandsWithoutTime.Where(hands => hands.Person == person).ToImmutableArray();
        if (!told.IsEmpty && Never(duty, protection, person) is { IsEmpty: false } never)
        {
            yield return new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {told[0].What} by {person}, and not when. At no time does it show an own lock or control of {person} on {TimelineWords.Named(never)}.",
                [],
                Act,
                [.. told.Select(hands => hands.Pointer)]
            );
            yield break;
        }

        if (reading.IsOpen && !reading.Works.IsEmpty)
        {
            // Others are at work; this person's turn is still to come.
            yield break;
        }

        var free = duty
            .Sources.Where(source =>
                source.HasIsolator
                && !(
                    reading.IsOpen
                        ? protection
                            .ControlOf(person, source.Source)
                            .Intervals.Any(held => held.Until is null)
                        : !protection.ControlOf(person, source.Source).Intervals.IsEmpty
                )
            )
            .Select(source => source.Source)
            .ToImmutableArray();
        if (!free.IsEmpty)
        {
            yield return LeadUpOutcome.Missing(
                LeadUp.ToFirstWork(duty),
                $"an own lock or control of {(reading.IsOpen && WorkByAuthorisedDuty.Barred(duty, person) is not null ? $"somebody authorised, in the place of {person}," : person.Text)} on {TimelineWords.Named(free)}"
            );
        }
        else if (!reading.IsOpen)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows an own lock or control of {person} on every source, but not when hands-on work of {person} started.",
                [],
                "Enter when hands-on work started and stopped, as a late entry."
            );
        }
    }

    private static ImmutableArray<EnergySource> Never(
        DutyFrame duty,
        ProtectionReading protection,
        Id<Participant> person
    ) =>
        [
            .. duty
                .Sources.Where(source =>
                    source.HasIsolator && protection.ControlOf(person, source.Source).Intervals.IsEmpty
                )
                .Select(source => source.Source),
        ];

    private static IEnumerable<TimelineFault> DuringWork(
        DutyFrame duty,
        ProtectionReading protection,
        WorkInterval work
    )
    {
        var bare =
            from source in duty.Sources
            where source.HasIsolator
            from gap in IntervalSet
                .Of([work.Interval])
                .Without(protection.ControlOf(work.Person, source.Source))
                .And(IntervalSet.Of([new TimelineInterval(source.From, null)]))
                .Without(duty.Reading.Running)
                .Intervals
            group source.Source by (gap.From, IsBrief: gap.IsWithinAMinute()) into together
            orderby together.Key.From
            select together;
        foreach (var gap in bare)
        {
            if (Fault(duty, protection, work, gap.Key.From, [.. gap]) is { } fault)
            {
                // Off and on again, or work and lock, in one printed minute may only stand the wrong way round.
                yield return gap.Key.IsBrief ? LeadUpOutcome.Untold(fault) : fault;
            }
        }
    }

    private static IEnumerable<TimelineFault> WithoutEnd(DutyFrame duty) =>
        from work in duty.Reading.Works
        where work.Stop is null && !duty.Reading.IsOpen
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {work.Person} starting work at {duty.Words.Time(work.Start)}, and does not show when it stopped: until when an own lock or control had to be on cannot be told.",
            [work.Start],
            "Enter when hands-on work stopped, as a late entry."
        );

    // Whoever stops work had hands in until then, whether or not the start was entered.
    private static TimelineFault WithoutStart(DutyFrame duty, ProtectionReading protection, OrderedEvent stop)
    {
        var person = stop.Event.Actor;
        var free = duty
            .Sources.Where(source =>
                source.HasIsolator
                && source.From <= stop.Place()
                && !protection.ControlOf(person, source.Source).Contains(stop.Place())
            )
            .Select(source => source.Source)
            .ToImmutableArray();
        var told = $"The record shows {person} at work until {duty.Words.Time(stop)}";
        return free.IsEmpty
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{told}, and does not show when it started: from when an own lock or control had to be on cannot be told.",
                [stop],
                "Enter when hands-on work started, as a late entry."
            )
            : new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"{told}. By then it does not show an own lock or control of {person} on {TimelineWords.Named(free)}.",
                [stop],
                Act
            );
    }

    private static TimelineFault? Fault(
        DutyFrame duty,
        ProtectionReading protection,
        WorkInterval work,
        TimelinePlace from,
        ImmutableArray<EnergySource> sources
    )
    {
        var words = duty.Words;
        var named = $"an own lock or control of {work.Person} on {TimelineWords.Named(sources)}";
        if (from == work.Start.Place())
        {
            return new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {work.Person} starting work at {words.Time(work.Start)}. By then it does not show {named}.",
                [work.Start],
                Act
            );
        }

        var entry = duty.Reading.Events.First(entry => entry.Place() >= from);
        if (work.Stop is null)
        {
            return duty.Reading.IsOpen
                ? new(
                    Verdict.Unproven,
                    FindingReason.InProgress,
                    $"The record shows {work.Person} at work from {words.Time(work.Start)}; after {EventWords.Done(entry.Event.Kind)} at {words.Time(entry)} it no longer shows {named}.",
                    [work.Start, entry],
                    "Enter when work stopped, or make safe again."
                )
                : null;
        }

        var again = sources
            .SelectMany(source => protection.ControlOf(work.Person, source).Intervals)
            .Where(held => held.From > from && held.From < work.Stop.Place())
            .Select(held => duty.Reading.Events.First(other => other.Place() >= held.From))
            .FirstOrDefault();
        var until = again is null
            ? $" until the work stopped at {words.Time(work.Stop)}"
            : $" until {words.Time(again)}";
        return new(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {work.Person} at work from {words.Time(work.Start)}; after {EventWords.Done(entry.Event.Kind)} at {words.Time(entry)} it no longer shows {named}{until}.",
            [.. new[] { work.Start, entry, again, work.Stop }.OfType<OrderedEvent>()],
            Act
        );
    }

    private static ImmutableArray<OrderedEvent> RestsOn(TimelineReading reading) =>
        reading.Of(
            TimelineEventKind.PlugControlConfirmed,
            TimelineEventKind.LockApplied,
            TimelineEventKind.TagApplied,
            TimelineEventKind.LockRemoved,
            TimelineEventKind.TagRemoved,
            TimelineEventKind.WorkStarted,
            TimelineEventKind.WorkStopped
        );
}
