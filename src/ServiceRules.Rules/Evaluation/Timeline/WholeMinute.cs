using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Work and the bench log written with different clocks: where whoever ended the work noted minutes alone, its end is the whole of
/// that minute, and what the bench log has in its seconds is not outside.
/// </summary>
internal static class WholeMinute
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    /// <summary>Whether a stretch of work has a moment; both ends count.</summary>
    public static bool Has(TimelineReading reading, WorkInterval work, Moment moment) =>
        work.Start.Moment <= moment
        && (
            work.Stop is not { } stop
            || moment <= stop.Moment
            || (moment - stop.Moment < Minute && IsOfMinutes(reading, stop) && IsQuiet(reading, stop, moment))
        );

    private static bool IsOfMinutes(TimelineReading reading, OrderedEvent stop) =>
        reading
            .Events.Where(entry => entry.Event.Actor == stop.Event.Actor)
            .All(entry => entry.IsToTheMinute());

    // A start, and what seconds show to have let energy back before then, ends the work for certain.
    private static bool IsQuiet(TimelineReading reading, OrderedEvent stop, Moment moment) =>
        !reading.Events.Any(entry =>
            entry.Place() > stop.Place()
            && entry.Moment <= moment
            && entry.Event.Kind switch
            {
                TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.HandedBack => true,
                TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved => !entry.IsToTheMinute(),
                TimelineEventKind.IsolatorOperated => !entry.IsToTheMinute()
                    && entry.Event.Position == IsolatorPosition.On,
                _ => false,
            }
        );
}
