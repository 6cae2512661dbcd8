using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// In a group everybody has a device of their own on, on an isolator or the group box, from no later than their work
/// starts until no earlier than it stops. A job lock is nobody's own, and a lock issued to somebody else is theirs.
/// </summary>
internal static class OwnDeviceInGroupDuty
{
    private const string Act =
        "Everybody hangs their own lock before reaching in, and takes it off only after their hands are out.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var besides = HandsBeside.Of(duty);
        ImmutableArray<Id<Participant>> workers =
        [
            .. GroupWork.Workers(duty).Concat(besides.Select(beside => beside.Person)).Distinct(),
        ];
        if (workers.Length < 2)
        {
            return TimelineOutcome.NotApplicable("The record shows one person at work, not a group.");
        }

        if (duty.Reading.Works.IsEmpty)
        {
            return NotBegun(duty, workers);
        }

        var faults = duty
            .Reading.Works.Select(work => Fault(duty, work) ?? WithoutEnd(duty, work))
            .OfType<TimelineFault>()
            .Concat(duty.Reading.StopsWithoutStart.Select(stop => WithoutStart(duty, stop)))
            .Concat(besides.Select(beside => Fault(duty, beside)).OfType<TimelineFault>())
            .ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {TimelineWords.List(workers.Select(person => person.Text))} each with an own lock or tag on while at work.",
                [
                    .. duty
                        .Reading.Devices.Where(device => IsOwn(duty, device))
                        .SelectMany(device => new[] { device.Applied, device.Removed })
                        .OfType<OrderedEvent>()
                        .Concat(duty.Reading.Works.Select(work => work.Start)),
                ]
            );
    }

    private static CheckOutcome NotBegun(DutyFrame duty, ImmutableArray<Id<Participant>> workers)
    {
        var without = workers
            .Where(person =>
                !duty.Reading.Devices.Any(device =>
                    device.Person == person && device.Removed is null && IsOwn(duty, device)
                ) && !KeepsPlug(duty, person, null)
            )
            .ToImmutableArray();
        return without.IsEmpty
            ? TimelineOutcome.Met(
                duty.Reading,
                "The record shows everybody of the group with an own lock or tag on. No hands-on work has started.",
                [.. duty.Reading.Devices.Select(device => device.Applied)]
            )
            : TimelineOutcome.OfFaults([
                TimelineFault.NotYet(
                    $"an own lock or tag of {TimelineWords.List(without.Select(person => person.Text))}",
                    LeadUpOutcome.DoItFirst
                ),
            ]);
    }

    private static TimelineFault? Fault(DutyFrame duty, WorkInterval work)
    {
        var words = duty.Words;
        if (KeepsPlug(duty, work.Person, work))
        {
            return null;
        }

        var own = duty
            .Reading.Devices.Where(device => device.Person == work.Person && IsOwn(duty, device))
            .OrderBy(device => device.Applied.Moment)
            .ToImmutableArray();
        // Edges by the clock: a lock put on in the minute in which work starts is on in time.
        var covered = work.Start.Moment;
        OrderedEvent? off = null;
        var isOn = false;
        foreach (var device in own.Where(device => device.Applied.Moment <= covered || isOn))
        {
            if (device.Applied.Moment > covered)
            {
                break;
            }

            if (device.Removed is null)
            {
                return null;
            }

            if (device.Removed.Moment >= covered && device.Removed.Moment > work.Start.Moment)
            {
                isOn = true;
                covered = device.Removed.Moment;
                off = device.Removed;
            }
        }

        return off switch
        {
            null => new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {work.Person} starting work at {words.Time(work.Start)} in a group, and no own lock or tag of {work.Person} on by then.",
                [work.Start],
                Act
            ),
            _ when work.Stop is null => new(
                Verdict.Unproven,
                FindingReason.InProgress,
                $"The record shows {work.Person} at work from {words.Time(work.Start)} and {EventWords.Done(off.Event.Kind)} at {words.Time(off)}, and does not show when the work stopped.",
                [work.Start, off],
                "Enter when work stopped, or hang the lock again."
            ),
            _ when covered < work.Stop.Moment => new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {work.Person} at work from {words.Time(work.Start)} until {words.Time(work.Stop)} in a group, and {EventWords.Done(off.Event.Kind)} at {words.Time(off)} with no other of their own on.",
                [work.Start, off, work.Stop],
                Act
            ),
            _ => null,
        };
    }

    // Of the bench log alone a moment is known: the own lock is on then.
    private static TimelineFault? Fault(DutyFrame duty, HandsBeside beside) =>
        duty.Reading.Devices.Any(device =>
            device.Person == beside.Person
            && IsOwn(duty, device)
            && device.Applied.Moment <= beside.Hands.Moment
            && (device.Removed is not { } off || beside.Hands.Moment <= off.Moment)
        ) || KeepsPlug(duty, beside.Person, null)
            ? null
            : new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {beside.Hands.What} by {beside.Person} at {duty.Words.Time(beside.Hands.At)}, beside the work of {beside.Other.Person}, and no own lock or tag of {beside.Person} on.",
                [beside.Other.Start],
                Act,
                [beside.Hands.Pointer]
            );

    private static TimelineFault? WithoutEnd(DutyFrame duty, WorkInterval work) =>
        work.Stop is not null || duty.Reading.IsOpen
            ? null
            : new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {work.Person} starting work at {duty.Words.Time(work.Start)} in a group, and does not show when it stopped.",
                [work.Start],
                "Enter when hands-on work stopped, as a late entry."
            );

    private static TimelineFault WithoutStart(DutyFrame duty, OrderedEvent stop) =>
        new(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {stop.Event.Actor} at work until {duty.Words.Time(stop)} beside others, and does not show from when.",
            [stop],
            "Enter when hands-on work started, as a late entry."
        );

    private static bool IsOwn(DutyFrame duty, DeviceInterval device) =>
        duty.LockOf(device.Device) switch
        {
            null or { IsTag: true } => true,
            { Owner: { } owner } => owner == device.Person,
            _ => device.IsTag,
        };

    // A plug under one's own eyes is a device of one's own only where there is nothing else to lock.
    private static bool KeepsPlug(DutyFrame duty, Id<Participant> person, WorkInterval? work) =>
        duty.SourcesAt(work?.Start.Place() ?? TimelinePlace.Beginning)
            .Where(source => source.HasIsolator)
            .Select(source => (Id<EnergySource>?)source.Source.Id)
            .ToImmutableArray()
            is [{ } only]
        && SourceReading
            .PlugsKept(duty.Reading, duty.Sources.First(source => source.Source.Id == only).Source)
            .Any(entry =>
                entry.Event.Actor == person
                && (
                    work is null
                    || (
                        entry.Moment <= work.Start.Moment
                        && !duty.Reading.Energisings.Any(start =>
                            start.Place() > entry.Place()
                            && (work.Stop is null || start.Place() < work.Stop.Place())
                        )
                    )
                )
            );
}
