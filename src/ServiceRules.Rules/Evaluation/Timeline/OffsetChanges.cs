using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// One clock that is written with two offsets from UTC: an hour is easily won so. The moments are told all the same, and other
/// doubts see what cannot be; so it is told, and weakens nothing. Where the site's own clocks are moved the
/// offset changes with them, also that of a clock which keeps the time of a neighbour; and one that writes UTC throughout never
/// changes. An entry labelled as made later was written elsewhere.
/// </summary>
internal static class OffsetChanges
{
    /// <summary>One doubt for every entry that parts from the rest.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var byClock =
            from entry in reading.Events
            where entry.Event.At is RecordedTime.Instant && !entry.IsLabelledLate()
            group Of(reading, entry) by ClockOf(entry.Event);
        return byClock.SelectMany(clock => Parting([.. clock]));
    }

    private static IEnumerable<EntryDoubt> Parting(List<Written> clock)
    {
        if (
            clock.Select(one => one.Offset).Distinct().Count() < 2
            || clock.TrueForAll(one => one.Ahead == clock[0].Ahead)
        )
        {
            yield break;
        }

        // The site's own wall clock is the likely one where any entry keeps it.
        var kept = clock.Find(one => one.Ahead == 0) ?? clock[0];
        foreach (var one in clock.Where(one => one.Ahead != kept.Ahead))
        {
            yield return new(
                CredibilityOf.OffsetChanges,
                one.Entry.Pointer(),
                $"{EventWords.Done(one.Entry.Event.Kind)} by {one.Entry.Event.Actor} is entered at {one.Entry.Event.At.Text}, with another offset from "
                    + $"UTC than {EventWords.Done(kept.Entry.Event.Kind)} at {kept.Entry.Event.At.Text}, and the site's clocks were not moved in between",
                Weakens: false
            );
        }
    }

    private static string ClockOf(TimelineEvent entry) =>
        entry.Device is { } device ? $"device {device}" : $"person {entry.Actor}";

    private static Written Of(TimelineReading reading, OrderedEvent entry)
    {
        var offset = ((RecordedTime.Instant)entry.Event.At).LocalOffsetMinutes ?? 0;
        return new(entry, offset, offset - reading.Frame.Context.Zone.OffsetMinutesAt(entry.Moment));
    }

    /// <summary>An entry, its offset, and how far that is ahead of the site's wall clock, in minutes.</summary>
    private sealed record Written(OrderedEvent Entry, int Offset, int Ahead);
}
