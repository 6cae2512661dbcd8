using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Whoever switches sources off or on, releases stored energy, verifies, takes a job lock off or starts the machine to hand it
/// back is authorised by a training that holds on that day, and not only affected by the work. Of whoever has hands in another
/// duty asks that; who uses the machine once it is handed back is no matter of this one.
/// </summary>
internal static class IsolationByAuthorisedDuty
{
    private const string Act =
        "Only somebody authorised isolates, releases, verifies or puts the machine into service again.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var judged = Steps(duty)
            .GroupBy(entry => entry.Event.Actor)
            .Select(own => (Person: own.Key, Steps: own.ToImmutableArray(), Fault: Fault(duty, [.. own])))
            .Where(one => one.Fault is null || !duty.Reading.HandsIn.Contains(one.Person))
            .ToImmutableArray();
        if (judged.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows nothing isolated, released, verified or put on again but by those with hands in."
            );
        }

        // Who it was rests on no time: doubtful times take nothing from it.
        var faults = judged.Select(one => one.Fault).OfType<TimelineFault>().ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : Told.Met(
                $"The record shows isolation and release by {TimelineWords.List(judged.Select(one => one.Person.Text))}, whom the register shows as authorised.",
                judged.SelectMany(one => one.Steps).Evidence()
            );
    }

    private static IEnumerable<OrderedEvent> Steps(DutyFrame duty)
    {
        var back = duty.Reading.Of(TimelineEventKind.HandedBack).LastOrDefault();
        var isOver = back is not null && !duty.Reading.Works.Any(work => work.Start.Place() > back.Place());
        return duty.Reading.Events.Where(entry =>
            (!isOver || entry.Place() < back!.Place())
            && entry.Event.Kind switch
            {
                TimelineEventKind.IsolatorOperated
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified => true,
                TimelineEventKind.LockRemoved => IsJobLock(duty, entry),
                TimelineEventKind.MachineStarted => isOver && IsForReturn(duty, entry),
                _ => false,
            }
        );
    }

    private static bool IsJobLock(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Lock is { } device && duty.LockOf(device) is { Owner: null, IsTag: false };

    // Runs in the midst of the work are asked of by a duty of their own.
    private static bool IsForReturn(DutyFrame duty, OrderedEvent start) =>
        !duty.Reading.Works.IsEmpty
        && duty.Reading.Works.All(work => work.Start.Place() < start.Place())
        && MachineRun.Of(duty).Any(run => run.Start.Index == start.Index && run.IsPlain);

    private static TimelineFault? Fault(DutyFrame duty, ImmutableArray<OrderedEvent> own)
    {
        var steps = own.DistinctBy(entry => EventWords.Done(entry.Event)).ToImmutableArray();
        var person = steps[0].Event.Actor;
        var told =
            $"The record shows {TimelineWords.List(steps.Select(entry => $"{EventWords.Done(entry.Event)} at {duty.Words.Time(entry)}"))} by {person}";
        // What must not have run out is held against the last of them.
        var (first, last) = (JobPeople.DayOf(duty, steps[0]), JobPeople.DayOf(duty, own[^1]));
        return duty.PersonOf(person) switch
        {
            null => new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"{told}, {Authorities.Against(Authority.NotKnown)}.",
                own,
                "Enter the person in the register."
            ),
            { Left: { } left } when left < last => Wrong(
                FindingReason.OutOfDate,
                $"{told}, who left on {RegisterOutcome.Day(left)}."
            ),
            { Authorised: false } => Wrong(
                FindingReason.WrongPerson,
                $"{told}, {Authorities.Against(Authority.Denied)}."
            ),
            // A colleague may well start it to hand it back.
            { }
                when JobPeople.IsOnlyAffected(duty, person)
                    && steps.Any(entry => entry.Event.Kind != TimelineEventKind.MachineStarted) => Wrong(
                FindingReason.WrongPerson,
                $"{told}, whom the record has as affected by the work and with no part in it."
            ),
            { TrainedOn: { } on } when on > first => Wrong(
                FindingReason.OutOfDate,
                $"{told}, who was trained only on {RegisterOutcome.Day(on)}."
            ),
            { TrainedUntil: { } until } when until < last => Wrong(
                FindingReason.OutOfDate,
                $"{told}, whose training held until {RegisterOutcome.Day(until)}."
            ),
            _ => null,
        };

        TimelineFault Wrong(FindingReason reason, string text) => new(Verdict.NotMet, reason, text, own, Act);
    }
}
