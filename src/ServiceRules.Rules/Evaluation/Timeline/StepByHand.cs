using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// A step that only a hand at the unit can make: a reel wedged, a unit propped up, guards refitted, a safety defect put right
/// where nothing else shows what put it right. Whoever makes it has hands in at that moment, whatever their part in the job.
/// </summary>
/// <param name="Entry">The step.</param>
/// <param name="IsBeforeWork">
/// Whether it leads up to work: nobody has been at work yet, or not since the machine last ran, and what comes next is work
/// and no run. Then isolation must stand and proof is still to come. Between two stretches of work nothing is still to come.
/// </param>
public sealed record StepByHand(OrderedEvent Entry, bool IsBeforeWork)
{
    /// <summary>Where it stands in the judged order.</summary>
    public TimelinePlace Place => Entry.Place();

    /// <summary>The evidence pointer of its entry.</summary>
    public string Pointer => Entry.Pointer();

    /// <summary>Whose hands.</summary>
    public Id<Participant> Person => Entry.Event.Actor;

    /// <summary>What findings call it.</summary>
    public string Done => EventWords.Done(Entry.Event);

    /// <summary>Every such step outside the hands-on work of whoever made it.</summary>
    public static ImmutableArray<StepByHand> Of(TimelineReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return
        [
            .. from entry in reading.Of(
                TimelineEventKind.ReelWedged,
                TimelineEventKind.UnitSupported,
                TimelineEventKind.GuardsRefitted,
                TimelineEventKind.SafetyDefectClosed
            )
            where !IsInOwnWork(reading, entry)
            where
                entry.Event.Kind != TimelineEventKind.SafetyDefectClosed || PutRightByHand.Is(reading, entry)
            select new StepByHand(
                entry,
                entry.Event.Kind is TimelineEventKind.ReelWedged or TimelineEventKind.UnitSupported
                    && !reading.Running.Contains(entry.Place())
                    && LeadsUpToWork(reading, entry)
            ),
        ];
    }

    /// <summary>
    /// Every such step outside the hands-on work of whoever made it and outside runs of the machine, which are judged by
    /// themselves. A unit propped up before work is none: it is held up before anything is isolated.
    /// </summary>
    public static ImmutableArray<StepByHand> OutsideWork(TimelineReading reading) =>
        [
            .. from step in Of(reading)
            where !reading.Running.Contains(step.Place)
            where !step.IsBeforeWork || step.Entry.Event.Kind == TimelineEventKind.ReelWedged
            select step,
        ];

    /// <summary>Whether it falls into a state; times are often noted to the minute: before or after every entry of its instant.</summary>
    public bool IsIn(IntervalSet state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Contains(Place)
            || state.Contains(new(Entry.Moment, int.MinValue))
            || state.Contains(new(Entry.Moment, int.MaxValue));
    }

    // Times are often noted to the minute: at the instant of a start or an end it may belong to the work.
    private static bool IsInOwnWork(TimelineReading reading, OrderedEvent entry) =>
        reading.Works.Any(work =>
            work.Person == entry.Event.Actor
            && work.Start.Moment <= entry.Moment
            && (work.Stop is not { } stop || entry.Moment <= stop.Moment)
        );

    private static bool LeadsUpToWork(TimelineReading reading, OrderedEvent entry)
    {
        if (reading.AnyWork.Contains(entry.Place()))
        {
            return false;
        }

        var work = reading.Works.FirstOrDefault(work => work.Start.Place() > entry.Place());
        var run = reading.Energisings.FirstOrDefault(start => start.Place() > entry.Place());
        return (run is null || work?.Start.Place() < run.Place()) && IsNewStretch(reading, entry);
    }

    // The same whether or not the next stretch has begun yet.
    private static bool IsNewStretch(TimelineReading reading, OrderedEvent entry) =>
        reading.EndsOfWork.Where(stop => stop.Place() < entry.Place()).MaxBy(stop => stop.Place())
            is not { } last
        || reading.Energisings.Any(start => start.Place() > last.Place() && start.Place() < entry.Place());
}
