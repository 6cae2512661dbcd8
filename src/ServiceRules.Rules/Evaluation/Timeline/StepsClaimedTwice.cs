using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// A step that is made once and stands until it is undone, claimed by two people with nothing undone between. The same
/// person entering it again is a repeat and no doubt.
/// </summary>
internal static class StepsClaimedTwice
{
    /// <summary>One doubt for every later claim; the first stands.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var standing = new Dictionary<(TimelineEventKind Kind, string On), OrderedEvent>();
        foreach (var entry in reading.Events)
        {
            Undo(standing, entry.Event);
            if (KeyOf(entry.Event) is not { } key)
            {
                continue;
            }

            if (!standing.TryAdd(key, entry) && standing[key] is var first && !IsBySame(first, entry))
            {
                yield return new(
                    CredibilityOf.ConflictingDuplicates,
                    entry.Pointer(),
                    $"{EventWords.Done(entry.Event.Kind)}{On(entry.Event)} is entered by {entry.Event.Actor} at {entry.Event.At.Text} "
                        + $"and was by {first.Event.Actor} at {first.Event.At.Text}, with nothing undone between",
                    Weakens: true
                );
            }
        }
    }

    private static bool IsBySame(OrderedEvent first, OrderedEvent entry) =>
        first.Event.Actor == entry.Event.Actor;

    // What is released, verified or looked at may well be so by several people, one after another.
    private static (TimelineEventKind, string)? KeyOf(TimelineEvent entry) =>
        entry.Kind switch
        {
            TimelineEventKind.MachineShutDown or TimelineEventKind.KeyRemoved => (entry.Kind, string.Empty),
            TimelineEventKind.IsolatorOperated when entry.Position != IsolatorPosition.On => (
                entry.Kind,
                SourceOf(entry)
            ),
            TimelineEventKind.PlugRemoved => (entry.Kind, SourceOf(entry)),
            TimelineEventKind.LockApplied or TimelineEventKind.TagApplied when entry.Lock is { } device => (
                TimelineEventKind.LockApplied,
                $"{device} {SourceOf(entry)}"
            ),
            _ => null,
        };

    private static void Undo(
        Dictionary<(TimelineEventKind Kind, string On), OrderedEvent> standing,
        TimelineEvent entry
    )
    {
        switch (entry.Kind)
        {
            case TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised:
                Remove(standing, key => key.Kind != TimelineEventKind.LockApplied);
                break;
            case TimelineEventKind.SourceAdded:
                Remove(
                    standing,
                    key =>
                        key.Kind is TimelineEventKind.IsolatorOperated or TimelineEventKind.PlugRemoved
                        && (
                            key.On.Length == 0
                            || string.Equals(key.On, SourceOf(entry), StringComparison.Ordinal)
                        )
                );
                break;
            case TimelineEventKind.IsolatorOperated when entry.Position == IsolatorPosition.On:
                Remove(
                    standing,
                    key =>
                        key.Kind == TimelineEventKind.IsolatorOperated
                        && string.Equals(key.On, SourceOf(entry), StringComparison.Ordinal)
                );
                break;
            case TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved when entry.Lock is { } device:
                Remove(
                    standing,
                    key =>
                        key.Kind == TimelineEventKind.LockApplied
                            && key.On.StartsWith($"{device} ", StringComparison.Ordinal)
                        || key.Kind == TimelineEventKind.IsolatorOperated
                            && string.Equals(key.On, SourceOf(entry), StringComparison.Ordinal)
                );
                break;
            default:
                break;
        }
    }

    private static void Remove(
        Dictionary<(TimelineEventKind Kind, string On), OrderedEvent> standing,
        Func<(TimelineEventKind Kind, string On), bool> which
    )
    {
        foreach (var key in standing.Keys.Where(which).ToList())
        {
            standing.Remove(key);
        }
    }

    private static string SourceOf(TimelineEvent entry) => entry.Source?.ToString() ?? string.Empty;

    private static string On(TimelineEvent entry) =>
        (entry.Lock, entry.Source) switch
        {
            ({ } device, _) => $" ({device})",
            (null, SourceReference.One one) => $" ({one.Source})",
            _ => string.Empty,
        };
}
