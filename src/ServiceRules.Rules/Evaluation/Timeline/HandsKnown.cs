using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>A stretch in which one record shows somebody's hands in, as another record can be held against it.</summary>
/// <param name="Person">Whose hands.</param>
/// <param name="Entries">The entries that show it.</param>
/// <param name="From">From this moment on.</param>
/// <param name="Until">Until this moment; the same moment: no more than that one is known.</param>
/// <param name="IsEnded">Whether the record shows the end.</param>
internal sealed record HandsKnown(
    Id<Participant> Person,
    ImmutableArray<OrderedEvent> Entries,
    Moment From,
    Moment Until,
    bool IsEnded
)
{
    /// <summary>The step that shows it, where it is a step and no work; null: it is not.</summary>
    public OrderedEvent? Step { get; private init; }

    // Of a line of the bench log that shows it, the timeline silent.
    private (RecordedTime At, string What, string? Pointer)? Log { get; init; }

    /// <summary>Pointers of what shows it beside the timeline, in its own record.</summary>
    public ImmutableArray<string> Beside => Log is { Pointer: { } pointer } ? [pointer] : [];

    /// <summary>How long hands that an open record shows in are reckoned with: no shift is longer (common practice, no source).</summary>
    private static readonly TimeSpan LongestShift = TimeSpan.FromHours(12);

    /// <summary>Every stretch that a record shows.</summary>
    /// <param name="reading">The record.</param>
    /// <param name="beside">The record that it is held against: whoever is entered there has taken their hands out here.</param>
    public static IEnumerable<HandsKnown> In(TimelineReading reading, TimelineReading beside)
    {
        foreach (var work in reading.Works)
        {
            yield return new(
                work.Person,
                work.Stop is { } stop ? [work.Start, stop] : [work.Start],
                work.Start.Moment,
                work.Stop?.Moment ?? LastOf(reading, work, beside),
                work.Stop is not null
            );
        }

        foreach (
            var entry in reading.StopsWithoutStart.Concat(
                reading.Of(TimelineEventKind.BlockageClearedByHand, TimelineEventKind.BlockageClearedWithTool)
            )
        )
        {
            yield return new(entry.Event.Actor, [entry], entry.Moment, entry.Moment, IsEnded: true);
        }

        foreach (var hands in reading.HandsByTheLog.Where(hands => !hands.IsDuringWork(reading)))
        {
            if (hands.Entry.By is { } person)
            {
                yield return ByLog(person, hands.At, hands.Moment, hands.What, hands.Pointer);
            }
        }
    }

    /// <summary>
    /// Steps that only a hand at the unit makes, outside the hands-on work of whoever made them. In a run of their own record they
    /// are told by that.
    /// </summary>
    public static IEnumerable<HandsKnown> BySteps(TimelineReading reading) =>
        from step in StepByHand.Of(reading)
        // Of another record not all is told that may have put a defect right.
        where step.Entry.Event.Kind != TimelineEventKind.SafetyDefectClosed
        where !reading.Running.Contains(step.Place)
        let at = step.Entry.Moment
        select new HandsKnown(step.Person, [step.Entry], at, at, IsEnded: true) { Step = step.Entry };

    /// <summary>Hands at one moment that a bench log alone tells.</summary>
    public static HandsKnown ByLog(
        Id<Participant> person,
        RecordedTime at,
        Moment moment,
        string what,
        string? pointer
    ) => new(person, [], moment, moment, IsEnded: true) { Log = (at, what, pointer) };

    /// <summary>From when to when, in words.</summary>
    public string Told(TimelineWords words) =>
        Log is { } log ? $"at {words.Time(log.At)}, {log.What}"
        : Step is { } step ? $"at {words.Time(step)}, {EventWords.Done(step.Event)}"
        : From == Until ? $"at {words.Time(Entries[0])}"
        : IsEnded ? $"from {words.Time(Entries[0])} to {words.Time(Entries[^1])}"
        : $"from {words.Time(Entries[0])} on, with no end entered";

    // Signed off, nobody is at it any longer. Open, whoever works on has only not come to enter the end.
    private static Moment LastOf(TimelineReading reading, WorkInterval work, TimelineReading beside)
    {
        var last = reading.Events[^1].Moment;
        if (reading.Frame.Record.SignOff is { At: var at })
        {
            var signed = JudgedOrder.MomentOf(at, reading.Frame.Context.Zone);
            return signed > last ? signed : last;
        }

        var seen = beside.Events.FirstOrDefault(entry =>
            entry.Event.Actor == work.Person && entry.Moment > last
        );
        return seen?.Moment ?? last + LongestShift;
    }
}
