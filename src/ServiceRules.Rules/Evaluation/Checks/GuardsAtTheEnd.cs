using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Guards that went back before the work was entered as stopped. As the last act of the work they are back after it: nothing of
/// the work stands between them and the stop of whoever refitted them, and that stop soon
/// follows. What does stand there may have had them off again.
/// </summary>
/// <param name="Refitted">The last such entry of the last stretch of work.</param>
/// <param name="Since">What of the work the record shows after it, for a sentence; null: nothing.</param>
/// <param name="IsUntold">Whether that stands in one minute with it, so that the record cannot tell which came first.</param>
internal sealed record GuardsAtTheEnd(OrderedEvent Refitted, string? Since, bool IsUntold)
{
    // Judgement, no source: to put tools by and to enter the stop; hands that stay in longer did something.
    private static readonly TimeSpan ToStop = TimeSpan.FromMinutes(5);

    /// <summary>Whether nothing of the work followed.</summary>
    public bool IsLastAct => Since is null;

    /// <summary>Guards refitted within the last stretch of work; null: none are asked for, or none are shown there.</summary>
    /// <param name="check">What is required.</param>
    /// <param name="reading">The timeline.</param>
    /// <param name="end">The end of all work, or null.</param>
    public static GuardsAtTheEnd? Of(Check.RequiredEvent check, TimelineReading reading, OrderedEvent? end)
    {
        if (
            !check.Events.Contains(TimelineEventKind.GuardsRefitted)
            || reading.Works.FirstOrDefault(work => work.Stop is not null && work.Stop == end) is not { } work
        )
        {
            return null;
        }

        var refitted = reading
            .Of(TimelineEventKind.GuardsRefitted)
            .LastOrDefault(entry => work.Interval.Contains(entry.Place()));
        return refitted is null ? null : Held(reading, work, refitted);
    }

    private static GuardsAtTheEnd Held(TimelineReading reading, WorkInterval work, OrderedEvent refitted)
    {
        var since = OfTheTimeline(reading, work, refitted);
        var hands = reading
            .HandsByTheLog.Where(hands =>
                hands.Moment >= refitted.Moment && hands.Moment <= work.Stop!.Moment
            )
            .MaxBy(hands => hands.Moment);
        return new(
            refitted,
            since ?? (hands is null ? null : $"{hands.What} at {reading.Words.Time(hands.At)}"),
            since is null && hands?.Moment == refitted.Moment
        );
    }

    private static string? OfTheTimeline(TimelineReading reading, WorkInterval work, OrderedEvent refitted)
    {
        var words = reading.Words;
        if (refitted.Event.Actor != work.Person || work.Stop!.Moment.Utc - refitted.Moment.Utc > ToStop)
        {
            return $"{work.Person} at work until {words.Time(work.Stop!)}";
        }

        if (
            reading.Works.FirstOrDefault(other =>
                other.Person != work.Person && other.Stop?.Place() > refitted.Place()
            ) is
            { Stop: { } theirs }
        )
        {
            return $"{theirs.Event.Actor} at work until {words.Time(theirs)}";
        }

        return
            reading.Events.FirstOrDefault(entry =>
                entry.Place() > refitted.Place() && entry.Place() < work.Stop!.Place() && IsOfTheWork(entry)
            )
                is { } acted
            ? $"{EventWords.Done(acted.Event.Kind)} {words.AtBy(acted)}"
            : null;
    }

    private static bool IsOfTheWork(OrderedEvent entry) =>
        HandsInRun.IsDoneAtTheUnit(entry.Event.Kind)
        || entry.Event.Kind
            is TimelineEventKind.TestEnergised
                or TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnded
                or TimelineEventKind.EnergisedTaskPerformed
                or TimelineEventKind.WorkStopped;
}
