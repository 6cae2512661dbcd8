using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Locks and people of the record that were at another machine or away at the same time, as attendance and other records
/// tell. Where stretches only touch, there is no doubt: clocks are read to the minute.
/// </summary>
internal static class ElsewhereDoubts
{
    /// <summary>
    /// One doubt for every lock or tag that was put on here while it hung elsewhere, or the other way round; one for each that is
    /// never taken off here, and that another record shows put on elsewhere after this one ends.
    /// </summary>
    public static IEnumerable<EntryDoubt> OfDevices(TimelineReading reading) =>
        from device in reading.Devices
        from elsewhere in reading.Frame.Context.Elsewhere.OfType<LockElsewhere>()
        where elsewhere.Lock == device.Device && IsAnother(reading, elsewhere)
        let there = StretchOf(reading, elsewhere.From, elsewhere.Until)
        where there.Overlaps(device.Applied.Moment, device.Removed?.Moment)
        select device.Removed is null
        && elsewhere.Record is { } later
        && there.From > reading.Events[^1].Moment
            ? new EntryDoubt(
                CredibilityOf.LockInTwoPlaces,
                device.Applied.Pointer(),
                $"{device.Device} is entered as put on here at {device.Applied.Event.At.Text} by {device.Person} and never as taken off, "
                    + $"and record {later} shows it put on {elsewhere.Machine} at {elsewhere.From.Text}: by then it had come off here, and when is not shown",
                Weakens: false
            )
            : new EntryDoubt(
                CredibilityOf.LockInTwoPlaces,
                device.Applied.Pointer(),
                $"{device.Device} is entered as put on here at {device.Applied.Event.At.Text} and hung on {elsewhere.Machine} "
                    + $"{Told(elsewhere)}",
                Weakens: true
            );

    /// <summary>One doubt for every entry of a person who was away, or had hands in another machine.</summary>
    public static IEnumerable<EntryDoubt> OfPeople(TimelineReading reading)
    {
        foreach (var entry in reading.Events)
        {
            if (Away(reading, entry) is { } away)
            {
                yield return Doubt(entry, away);
            }
            else if (AtAnother(reading, entry) is { } elsewhere)
            {
                yield return Doubt(
                    entry,
                    $"{EventWords.Done(entry.Event.Kind)} is entered by {entry.Event.Actor} at {entry.Event.At.Text}, who had hands in {elsewhere.Machine} "
                        + Told(elsewhere)
                );
            }
        }
    }

    /// <summary>Where somebody was for any part of a stretch of time, if that is known to be elsewhere; after their name.</summary>
    public static string? WhereMeanwhile(
        TimelineReading reading,
        Id<Participant> person,
        Moment from,
        Moment? until
    )
    {
        var context = reading.Frame.Context;
        var there = context.Attendance.Where(attendance => attendance.Person == person).ToList();
        if (
            there.Count > 0
            && !there.Exists(one =>
                StretchOf(reading, one.From, one.Until) is var stretch
                && stretch.Holds(from)
                && (until is not { } end || stretch.Holds(end))
            )
        )
        {
            return "who was not on the site all that time by its attendance";
        }

        var elsewhere = context
            .Elsewhere.OfType<PersonElsewhere>()
            .FirstOrDefault(one =>
                one.Person == person
                && IsAnother(reading, one)
                && StretchOf(reading, one.From, one.Until).Overlaps(from, until)
            );
        return elsewhere is null ? null : $"who had hands in {elsewhere.Machine} {Told(elsewhere)}";
    }

    private static EntryDoubt Doubt(OrderedEvent entry, string why) =>
        new(CredibilityOf.PersonElsewhere, entry.Pointer(), why, Weakens: true);

    private static string? Away(TimelineReading reading, OrderedEvent entry)
    {
        var there = reading
            .Frame.Context.Attendance.Where(attendance => attendance.Person == entry.Event.Actor)
            .Select(attendance =>
                (attendance, Stretch: StretchOf(reading, attendance.From, attendance.Until))
            )
            .ToList();
        return there.Count == 0 || there.Exists(one => one.Stretch.Holds(entry.Moment))
            ? null
            : $"{EventWords.Done(entry.Event.Kind)} is entered by {entry.Event.Actor} at {entry.Event.At.Text}, who was not on the site then by its attendance "
                + $"({string.Join(", ", there.Select(one => $"{one.attendance.From.Text} to {one.attendance.Until.Text}"))})";
    }

    // What takes hands at this machine; to tell or to reach somebody takes none.
    private static PersonElsewhere? AtAnother(TimelineReading reading, OrderedEvent entry)
    {
        if (!StepBursts.IsAtTheMachine(entry.Event.Kind) && !IsWork(entry.Event.Kind))
        {
            return null;
        }

        var begun = reading.Works.FirstOrDefault(work => work.Start == entry);
        var until = begun is null ? entry.Moment : begun.Stop?.Moment;
        return reading
            .Frame.Context.Elsewhere.OfType<PersonElsewhere>()
            .FirstOrDefault(elsewhere =>
                elsewhere.Person == entry.Event.Actor
                && IsAnother(reading, elsewhere)
                && StretchOf(reading, elsewhere.From, elsewhere.Until).Overlaps(entry.Moment, until)
            );
    }

    private static bool IsWork(TimelineEventKind kind) =>
        kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;

    private static bool IsAnother(TimelineReading reading, Elsewhere elsewhere) =>
        elsewhere.Machine != reading.Frame.Record.Machine.Id;

    private static string Told(Elsewhere elsewhere) =>
        elsewhere.Until is { } until
            ? $"from {elsewhere.From.Text} to {until.Text}"
            : $"from {elsewhere.From.Text} on";

    private static Stretch StretchOf(TimelineReading reading, RecordedTime from, RecordedTime? until) =>
        new(
            JudgedOrder.MomentOf(from, reading.Frame.Context.Zone),
            until is null ? null : JudgedOrder.MomentOf(until, reading.Frame.Context.Zone)
        );

    private readonly record struct Stretch(Moment From, Moment? Until)
    {
        public bool Holds(Moment moment) => From <= moment && (Until is not { } until || moment <= until);

        public bool Overlaps(Moment from, Moment? until) =>
            (Until is not { } mine || from < mine) && (until is not { } theirs || From < theirs);
    }
}
