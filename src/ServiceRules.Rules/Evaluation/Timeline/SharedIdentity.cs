using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Entries that carry one identity. The same content, sent again, is the same event. Other content is another event, whatever its
/// identity says: both are judged, and neither is taken at its word.
/// </summary>
internal static class SharedIdentity
{
    /// <summary>The entries without what was received again: the first of each stands.</summary>
    public static ImmutableArray<OrderedEvent> Once(ImmutableArray<OrderedEvent> events)
    {
        var known = new Dictionary<string, List<TimelineEvent>>(StringComparer.Ordinal);
        var once = ImmutableArray.CreateBuilder<OrderedEvent>(events.Length);
        foreach (var entry in events)
        {
            if (entry.Event.EventId is { } id)
            {
                if (!known.TryGetValue(id, out var same))
                {
                    known[id] = same = [];
                }

                if (same.Exists(other => SaysTheSame(other, entry.Event)))
                {
                    continue;
                }

                same.Add(entry.Event);
            }

            once.Add(entry);
        }

        return once.DrainToImmutable();
    }

    /// <summary>One doubt for every entry whose identity stands for another event as well.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading) =>
        from same in reading
            .Events.Where(entry => entry.Event.EventId is not null)
            .GroupBy(entry => entry.Event.EventId, StringComparer.Ordinal)
        where same.Skip(1).Any()
        from entry in same
        let other = same.First(one => one.Index != entry.Index)
        select new EntryDoubt(
            CredibilityOf.ConflictingDuplicates,
            entry.Pointer(),
            $"{Told(entry)} and {Told(other)} are entered under one identity ({same.Key}): one event was changed, or one identity was "
                + "given to two",
            Weakens: true
        );

    private static string Told(OrderedEvent entry) =>
        $"{EventWords.Done(entry.Event.Kind)} by {entry.Event.Actor} at {entry.Event.At.Text}";

    // When it was received is no part of what happened.
    private static bool SaysTheSame(TimelineEvent one, TimelineEvent other) =>
        Single(one) == Single(other)
        && one.Others.SequenceEqual(other.Others)
        && one.Measures.SequenceEqual(other.Measures)
        && one.Crews.SequenceEqual(other.Crews, StringComparer.Ordinal);

    private static TimelineEvent Single(TimelineEvent entry) =>
        entry with
        {
            Others = [],
            Measures = [],
            Crews = [],
            ReceivedAt = null,
        };
}
