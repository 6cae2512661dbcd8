using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Somebody took the last lock or tag off an isolator, and nothing turned it on: where they hang one again and enter that it is off,
/// or take its plug into their keeping again, they have seen that it still is. A device hung without a word of its position, or by
/// somebody else, shows nothing of it; and after it was turned on, plugged in or denied only turning it off does.
/// </summary>
internal static class SeenStillOff
{
    private enum State
    {
        NotShown,
        Off,
        BareSince,
    }

    /// <summary>The entries that show a source off again.</summary>
    /// <param name="reading">The timeline.</param>
    /// <param name="source">The source.</param>
    /// <param name="held">When a lock or tag was on it.</param>
    /// <param name="on">Where it was put on, or the machine started with nothing on it.</param>
    public static IEnumerable<OrderedEvent> By(
        TimelineReading reading,
        EnergySource source,
        IntervalSet held,
        IReadOnlySet<TimelinePlace> on
    )
    {
        var off = SourceReading.Isolations(reading, source).ToHashSet();
        var kept = SourceReading.PlugsKept(reading, source).ToHashSet();
        var bare = held.Ends.ToHashSet();
        var state = State.NotShown;
        var left = default(Id<Participant>);
        foreach (var entry in reading.Events)
        {
            if (on.Contains(entry.Place()))
            {
                state = State.NotShown;
            }
            else if (off.Contains(entry))
            {
                state = SaidOtherwise.By(entry.Event) ? State.NotShown : State.Off;
            }
            else if (bare.Contains(entry.Place()))
            {
                state = state == State.Off ? State.BareSince : state;
                left = entry.Event.Actor;
            }
            else if (
                state == State.BareSince
                && entry.Event.Actor == left
                && !SaidOtherwise.By(entry.Event)
                && (kept.Contains(entry) || IsHungOff(source, entry.Event))
            )
            {
                state = State.Off;
                yield return entry;
            }
        }
    }

    private static bool IsHungOff(EnergySource source, TimelineEvent entry) =>
        entry.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied
        && entry.Position is not (null or IsolatorPosition.On)
        && entry.SpeaksOf(source.Id);
}
