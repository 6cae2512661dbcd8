using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>When the entries of a job came in.</summary>
internal static class EntryReceipt
{
    /// <summary>The timeline as it came in.</summary>
    public static ImmutableArray<TimelineEvent> Of(IEnumerable<TimelineEvent> events, Visit visit)
    {
        var evening = visit.Clock.Moment + TimeSpan.FromMinutes(visit.Chance.Between(240, 300));
        return [.. events.Select((entry, index) => Received(visit, entry, index, evening))];
    }

    private static TimelineEvent Received(Visit visit, TimelineEvent entry, int index, Moment evening)
    {
        var at = entry.At is RecordedTime.Instant instant ? instant.Moment : evening;
        var late = visit.Clock.Said(evening + TimeSpan.FromSeconds(7 * index));
        return (visit.Plan.Fault, visit.Plan.Oddity) switch
        {
            (SeededFaultKind.BackFilledTimes, _) => entry with { ReceivedAt = late },
            (_, OddityKind.DeviceOffline) => entry with { ReceivedAt = late, Mark = EntryMark.DeviceOffline },
            (_, OddityKind.HonestLateEntry) when entry.Kind is TimelineEventKind.AreaInspected => entry with
            {
                ReceivedAt = late,
                Mark = EntryMark.LateEntry,
            },
            _ => entry with
            {
                ReceivedAt = visit.Clock.Said(at + TimeSpan.FromSeconds(visit.Chance.Between(1, 4))),
            },
        };
    }
}
