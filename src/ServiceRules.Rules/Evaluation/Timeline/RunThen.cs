using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Whether the machine surely ran when something was done.</summary>
internal static class RunThen
{
    /// <summary>
    /// The start of the run that an entry falls in; null: none. An entry at the instant of a start or an end may be before or
    /// after it. A run whose own end is not entered was over when something was done that follows a stop.
    /// </summary>
    public static OrderedEvent? At(TimelineReading reading, OrderedEvent entry)
    {
        var turns = reading.Of(
            TimelineEventKind.MachineStarted,
            TimelineEventKind.TestEnergised,
            TimelineEventKind.MachineShutDown,
            TimelineEventKind.TestEnded
        );
        var start = turns.LastOrDefault(turn => turn.Place() < entry.Place());
        var next = turns.FirstOrDefault(turn => turn.Place() > entry.Place());
        if (start is null || !IsStart(start) || start.Moment == entry.Moment || next?.Moment == entry.Moment)
        {
            return null;
        }

        var isEnded = next is not null && !IsStart(next);
        return
            isEnded
            || !reading.Events.Any(sign =>
                sign.Place() > start.Place()
                && sign.Place() < entry.Place()
                && HandsInRun.FollowsAStop(sign.Event)
            )
            ? start
            : null;
    }

    private static bool IsStart(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised;
}
