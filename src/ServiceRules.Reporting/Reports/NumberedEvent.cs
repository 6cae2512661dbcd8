using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports;

/// <summary>An event with the number by which lanes and list name it.</summary>
public sealed record NumberedEvent(int Number, TimelineEvent Event)
{
    /// <summary>Hands-on work begins with it: by its word, or because somebody takes up work again.</summary>
    public bool BeginsWork { get; init; }

    /// <summary>Entries in judged order, numbered.</summary>
    public static ImmutableArray<NumberedEvent> Of(ImmutableArray<OrderedEvent> inOrder)
    {
        var begun = JudgedEntries
            .Of(inOrder)
            .Where(entry => entry.Event.Kind == TimelineEventKind.WorkStarted)
            .Select(entry => entry.Index)
            .ToHashSet();
        return
        [
            .. inOrder.Select(
                (entry, at) =>
                    new NumberedEvent(at + 1, entry.Event) { BeginsWork = begun.Contains(entry.Index) }
            ),
        ];
    }
}
