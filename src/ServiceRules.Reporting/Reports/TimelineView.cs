using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Reports;

/// <summary>The events of a job by time, each with its number in the report.</summary>
internal sealed class TimelineView
{
    public TimelineView(JobView job)
    {
        var zone = job.Assessed.Context.Zone;
        Events =
        [
            .. job
                .Record.Timeline.Select((one, index) => (Event: one, Index: index))
                .OrderBy(entry => When(entry.Event.At, zone))
                .ThenBy(entry => entry.Index)
                .Select((entry, number) => new NumberedEvent(number + 1, entry.Event)),
        ];
    }

    public ImmutableArray<NumberedEvent> Events { get; }

    private static DateTimeOffset When(RecordedTime time, SiteZone zone) =>
        time switch
        {
            RecordedTime.Instant instant => instant.Moment.Utc,
            RecordedTime.LocalTime local => zone.InstantOf(local) switch
            {
                ResolvedTime.Unique unique => unique.Moment.Utc,
                ResolvedTime.Ambiguous ambiguous => ambiguous.Earliest.Utc,
                _ => DateTimeOffset.MinValue,
            },
            _ => DateTimeOffset.MinValue,
        };
}
