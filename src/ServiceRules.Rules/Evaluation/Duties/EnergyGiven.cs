using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>An entry by which a record gives a machine energy, or gives the machine away.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Until">When a run that it begins is shown to end; null: it is one moment, or no end is shown.</param>
internal sealed record EnergyGiven(OrderedEvent Entry, Moment? Until)
{
    /// <summary>What it is, in words.</summary>
    public string What => EventWords.Done(Entry.Event);

    /// <summary>Every such entry of a record.</summary>
    public static IEnumerable<EnergyGiven> In(TimelineReading reading)
    {
        foreach (var start in reading.Energisings)
        {
            yield return new(start, reading.Running.StretchAt(start.Place())?.Until?.Moment);
        }

        foreach (
            var entry in reading.Of(
                TimelineEventKind.IsolatorOperated,
                TimelineEventKind.SourceAdded,
                TimelineEventKind.HandedBack
            )
        )
        {
            if (
                entry.Event.Kind != TimelineEventKind.IsolatorOperated
                || entry.Event.Position == IsolatorPosition.On
            )
            {
                yield return new(entry, null);
            }
        }
    }

    /// <summary>Whether it falls into hands-on work, or hands go in while the run that it begins goes on.</summary>
    public bool Endangers(HandsKnown hands, TimelineReading owner) =>
        !IsHeldOff(hands, owner)
        && (
            (hands.From <= Entry.Moment && Entry.Moment < hands.Until)
            || (
                Until is { } until
                && Entry.Moment <= hands.From
                && hands.From < until
                && !IsShutDownBetween(hands, owner)
            )
        );

    /// <summary>Whether it stands in the very minute in which hands went in, seconds not noted: which came first nothing tells.</summary>
    public bool IsInTheMinuteOf(HandsKnown hands) =>
        hands.From != hands.Until
        && Entry.Place().IsInTheMinuteOf(hands.Entries[0].Place() with { Index = Entry.Index });

    private bool IsShutDownBetween(HandsKnown hands, TimelineReading owner) =>
        owner
            .Of(TimelineEventKind.MachineShutDown)
            .Any(entry => Entry.Moment <= entry.Moment && entry.Moment <= hands.From);

    // What is plugged in behind an isolator that a lock holds off stays off.
    private bool IsHeldOff(HandsKnown hands, TimelineReading owner) =>
        Entry.Event.Kind == TimelineEventKind.SourceAdded
        && Entry.Event.Source is SourceReference.One { Source: var source }
        && owner.Devices.Any(device =>
            device.HoldsOff
            && device.IsOn(source)
            && device.Applied.Moment <= hands.From
            && !(device.Removed?.Moment <= Entry.Moment)
        );
}
