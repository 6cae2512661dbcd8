using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The people of a job by what they did in it.</summary>
internal static class JobPeople
{
    /// <summary>Where a record says who was in the job.</summary>
    public const string Pointer = "/people";

    /// <summary>The locks and tags that were put on, each device of each person once, in judged order.</summary>
    public static ImmutableArray<OrderedEvent> Hangings(DutyFrame duty) =>
        Hangings(duty, TimelineEventKind.LockApplied, TimelineEventKind.TagApplied);

    /// <summary>The locks that were put on.</summary>
    public static ImmutableArray<OrderedEvent> LockHangings(DutyFrame duty) =>
        Hangings(duty, TimelineEventKind.LockApplied);

    /// <summary>The tags that were put on.</summary>
    public static ImmutableArray<OrderedEvent> TagHangings(DutyFrame duty) =>
        Hangings(duty, TimelineEventKind.TagApplied);

    /// <summary>The first hanging of each person, in judged order.</summary>
    public static IEnumerable<OrderedEvent> FirstOfEach(IEnumerable<OrderedEvent> hangings) =>
        hangings.DistinctBy(entry => entry.Event.Actor);

    /// <summary>The people whom the record names as affected.</summary>
    public static IEnumerable<Id<Participant>> Affected(DutyFrame duty) =>
        duty
            .Record.People.Where(person => person.Role == JobRole.Affected)
            .Select(person => person.Id)
            .Distinct();

    /// <summary>Named as affected by the work, with no part in it and no hands in.</summary>
    public static bool IsOnlyAffected(DutyFrame duty, Id<Participant> person) =>
        Affected(duty).Contains(person)
        && !duty.Reading.HandsIn.Contains(person)
        && !duty.Record.People.Any(one => one.Id == person && one.Role != JobRole.Affected);

    /// <summary>Those whom an entry puts in charge of the group or of the crews.</summary>
    public static IEnumerable<Id<Participant>> InCharge(DutyFrame duty) =>
        duty
            .Reading.Of(TimelineEventKind.PrimaryAssigned, TimelineEventKind.CoordinatorAssigned)
            .SelectMany(entry => GroupWork.Named(entry));

    /// <summary>Those whom an entry puts in charge of the group.</summary>
    public static IEnumerable<Id<Participant>> Primaries(DutyFrame duty) =>
        duty.Reading.Of(TimelineEventKind.PrimaryAssigned).SelectMany(entry => GroupWork.Named(entry));

    /// <summary>Where the record names a person; the list where it does not.</summary>
    public static string PointerOf(DutyFrame duty, Id<Participant> person)
    {
        for (var index = 0; index < duty.Record.People.Length; index++)
        {
            if (duty.Record.People[index].Id == person)
            {
                return string.Create(CultureInfo.InvariantCulture, $"{Pointer}/{index}");
            }
        }

        return Pointer;
    }

    /// <summary>The day of an entry by the wall clock of the site.</summary>
    public static DateOnly DayOf(DutyFrame duty, OrderedEvent entry) =>
        duty.Context.Zone.DayOf(entry.Event.At);

    /// <summary>A device as people speak of it.</summary>
    public static string Named(OrderedEvent hanging) =>
        $"{(hanging.Event.Kind == TimelineEventKind.TagApplied ? "tag" : "lock")} {hanging.Event.Lock}";

    private static ImmutableArray<OrderedEvent> Hangings(
        DutyFrame duty,
        params ReadOnlySpan<TimelineEventKind> kinds
    ) =>
        [
            .. duty
                .Reading.Of(kinds)
                .Where(entry => entry.Event.Lock is not null)
                .DistinctBy(entry => (entry.Event.Lock, entry.Event.Actor)),
        ];
}
