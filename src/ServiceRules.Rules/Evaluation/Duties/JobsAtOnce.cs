using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Two jobs at once on one machine, of different people, each under own locks: one authorised person is over both. Named over the
/// crews in either record, or put in charge in both, before the second pair of hands went in.
/// </summary>
internal static class JobsAtOnce
{
    private const string Act =
        "Name one authorised person over both jobs, who tells each of the other, before hands go in.";

    /// <summary>What the job shows of it; null: no other record shows anybody else at the machine with it.</summary>
    public static CheckOutcome? Judge(DutyFrame duty)
    {
        var at = duty.Reading.Others.SelectMany(other => AtOnce(new(duty, other))).ToImmutableArray();
        if (at.IsEmpty)
        {
            return null;
        }

        var faults = at.Select(both => Fault(duty, both)).OfType<TimelineFault>().ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record and {TimelineWords.List(at.Select(both => both.Beside.Name).Distinct(StringComparer.Ordinal))} of the same machine show one authorised person over both jobs before they went on together.",
                [.. at.SelectMany(both => Naming(both.Beside.Own, both.Since)).Distinct()]
            );
    }

    // Every two people of both jobs, once: where they are surely in together, else where they may be.
    private static IEnumerable<Both> AtOnce(JobBeside beside)
    {
        var theirs = beside.HandsAndStepsOfTheOther.ToList();
        var together = (
            from own in beside.OwnHandsAndSteps
            from other in theirs
            where own.Person != other.Person && Meet(own, other)
            let since = own.From > other.From ? own.From : other.From
            let isUntold = IsUntold(own, other, since)
            orderby isUntold, since
            select new Both(beside, own, other, since, isUntold)
        )
            .DistinctBy(both => (both.Own!.Person, both.Other.Person))
            .ToList();
        var toBegin = StillToBegin(beside, theirs)
            .Where(next => !together.Exists(both => Tells(both, next.Other.Person)))
            .ToList();
        return together
            .Where(both => !both.IsUntold || !toBegin.Exists(next => Tells(next, both.Other.Person)))
            .Concat(toBegin);
    }

    private static bool Tells(Both both, Id<Participant> person) =>
        !both.IsUntold && both.Other.Person == person;

    // Out and in at one time is one after the other; of hands known at one moment alone nothing tells when they came out.
    private static bool Meet(HandsKnown own, HandsKnown other) =>
        Overlap(own, other)
        || (
            (own.From == own.Until || other.From == other.Until)
            && own.From <= other.Until
            && other.From <= own.Until
        );

    private static bool Overlap(HandsKnown own, HandsKnown other) =>
        own.From < other.Until && other.From < own.Until;

    // In one printed minute, seconds not noted, they may as well have been in one after the other.
    private static bool IsUntold(HandsKnown own, HandsKnown other, Moment since)
    {
        var place = new TimelinePlace(since, 0);
        return !Overlap(own, other) && place.IsInTheMinuteOf(place);
    }

    // Nobody's hands are in here yet, and they are there: it is to be asked before they go in.
    private static IEnumerable<Both> StillToBegin(JobBeside beside, List<HandsKnown> theirs)
    {
        if (!beside.Own.IsOpen || !beside.Own.Works.IsEmpty || beside.Own.Events.IsEmpty)
        {
            return [];
        }

        var now = beside.Own.Events[^1].Moment;
        return theirs
            .Where(other =>
                !other.IsEnded && other.Until >= now && !beside.Own.HandsIn.Contains(other.Person)
            )
            .DistinctBy(other => other.Person)
            .Select(other => new Both(
                beside,
                null,
                other,
                now > other.From ? now : other.From,
                IsUntold: false
            ));
    }

    private static TimelineFault? Fault(DutyFrame duty, Both both)
    {
        var standing = Over(both)
            .Select(person => Authorities.Of(duty, person))
            .OrderBy(one => (int)one)
            .Cast<Authority?>()
            .FirstOrDefault();
        if (standing == Authority.Shown)
        {
            return null;
        }

        var (beside, own, other) = (both.Beside, both.Own, both.Other);
        var who = standing is { } known
            ? $"one person over both jobs, but only one {Authorities.Against(known)}"
            : "one person over both jobs by then";
        if (own is null)
        {
            return TimelineFault.NotYet(
                $"one person over this job and that of record {beside.Name}, which shows {other.Person} with hands in {other.Told(beside.Words)}",
                Act
            );
        }

        var fault = new TimelineFault(
            standing == Authority.NotKnown ? Verdict.Unproven : Verdict.NotMet,
            standing switch
            {
                null => FindingReason.StepMissing,
                Authority.NotKnown => FindingReason.NotRegistered,
                _ => FindingReason.WrongPerson,
            },
            $"The record shows {own.Person} with hands in {own.Told(beside.Words)}, and record {beside.Name} {other.Person} {other.Told(beside.Words)}; the two {(standing is null ? "do not show" : "show")} {who}.",
            own.Entries,
            Act,
            own.Beside
        );
        return both.IsUntold ? LeadUpOutcome.Untold(fault) : fault;
    }

    // Of each record over its own people: over both is whom both name. A coordinator is over several by their name.
    private static ImmutableHashSet<Id<Participant>> Over(Both both)
    {
        var own = Naming(both.Beside.Own, both.Since).ToList();
        var other = Naming(both.Beside.Others, both.Since).ToList();
        return People(own)
            .Intersect(People(other))
            .Union(People(own.Concat(other).Where(Coordinates)).Except(Contested(own, other)));
    }

    // Each names another: nobody is over both.
    private static ImmutableHashSet<Id<Participant>> Contested(
        List<OrderedEvent> own,
        List<OrderedEvent> other
    )
    {
        var (here, there) = (People(own.Where(Coordinates)), People(other.Where(Coordinates)));
        return here.IsEmpty || there.IsEmpty ? [] : here.SymmetricExcept(there);
    }

    private static bool Coordinates(OrderedEvent entry) =>
        entry.Event.Kind == TimelineEventKind.CoordinatorAssigned;

    private static ImmutableHashSet<Id<Participant>> People(IEnumerable<OrderedEvent> naming) =>
        [.. naming.SelectMany(entry => GroupWork.Named(entry))];

    private static IEnumerable<OrderedEvent> Naming(TimelineReading reading, Moment since) =>
        reading
            .Of(TimelineEventKind.PrimaryAssigned, TimelineEventKind.CoordinatorAssigned)
            .Where(entry => entry.Moment <= since);

    /// <param name="Beside">The two jobs.</param>
    /// <param name="Own">Hands of this one; null: none yet.</param>
    /// <param name="Other">Hands of the other.</param>
    /// <param name="Since">From when on both are in.</param>
    /// <param name="IsUntold">Whether nothing tells that both were in at once.</param>
    private sealed record Both(
        JobBeside Beside,
        HandsKnown? Own,
        HandsKnown Other,
        Moment Since,
        bool IsUntold
    );
}
