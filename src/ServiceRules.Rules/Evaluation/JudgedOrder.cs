using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The order in which a timeline is judged: by moment, entries of the same moment as they were entered. A time
/// without offset is read in the site's zone: the earlier of two moments, and for a time the wall clock never
/// showed, the moment it would have been had the clock not yet been set forward.
/// </summary>
public static class JudgedOrder
{
    /// <summary>Orders a timeline.</summary>
    public static ImmutableArray<OrderedEvent> Of(ImmutableArray<TimelineEvent> timeline, SiteZone zone) =>
        [
            .. timeline
                .Select((entry, index) => (Event: entry, Index: index, At: MomentOf(entry.At, zone)))
                .OrderBy(item => item.At)
                .ThenBy(item => item.Index)
                .Select(item => new OrderedEvent(item.Event, item.Index, item.At)),
        ];

    /// <summary>The moment at which a recorded time is judged.</summary>
    public static Moment MomentOf(RecordedTime time, SiteZone zone)
    {
        ArgumentNullException.ThrowIfNull(time);
        ArgumentNullException.ThrowIfNull(zone);
        return time switch
        {
            RecordedTime.Instant instant => instant.Moment,
            RecordedTime.LocalTime local => zone.InstantOf(local) switch
            {
                ResolvedTime.Unique unique => unique.Moment,
                ResolvedTime.Ambiguous ambiguous => ambiguous.Earliest,
                _ => BeforeTheGap(local, zone),
            },
            _ => throw new InvalidOperationException("recorded times are a closed family"),
        };
    }

    private static Moment BeforeTheGap(RecordedTime.LocalTime time, SiteZone zone)
    {
        var asUtc = Moment.From(
            DateTimeOffset.Parse(
                time.Text.ToUpperInvariant().Replace(":60", ":59", StringComparison.Ordinal) + "Z",
                CultureInfo.InvariantCulture
            )
        );
        // A day back is always before the gap, and zones do not move twice within a day.
        var offset = zone.OffsetMinutesAt(asUtc + TimeSpan.FromDays(-1));
        return asUtc + TimeSpan.FromMinutes(-offset);
    }
}
