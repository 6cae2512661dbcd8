using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>At which event a letter stands on the lanes: where what it tells begins.</summary>
internal static class LetterPlace
{
    public static int Of(SafeWorkView view, MarkedCause cause)
    {
        ImmutableArray<int> events =
        [
            .. cause.Cause.Evidence.Select(view.NumberOf).OfType<int>().Distinct().Order(),
        ];
        return Logged(view, cause, events) is { } logged ? logged
            : events.IsEmpty ? Missing(view)
            : cause.Cause.IsOfCredibility ? events[0]
            : Bared(view, cause.Marked[0].Told.Rule.Check, events) is > 0 and var bared ? bared
            : First(view, events, IsTelling) is > 0 and var telling ? telling
            : First(view, events, kind => kind == TimelineEventKind.WorkStarted) is > 0 and var began ? began
            : events[^1];
    }

    /// <summary>Where hands that only the bench log or a step tells were at a unit, unless protection had ended before; null: there are none.</summary>
    private static int? Logged(SafeWorkView view, MarkedCause cause, ImmutableArray<int> events)
    {
        var at = view
            .People.SelectMany(person =>
                person
                    .Logged.Select(one => (one.Letter, one.After))
                    .Concat(person.Steps.Select(one => (Letter: one.Letter ?? "", After: one.Number)))
            )
            .Where(one => cause.Marked.Any(marked => marked.Letter == one.Letter))
            .Select(one => Math.Max(one.After, 1))
            .DefaultIfEmpty()
            .Min();
        return
            at == 0
            || (Bared(view, cause.Marked[0].Told.Rule.Check, events) is > 0 and var bared && bared <= at)
            ? null
            : at;
    }

    /// <summary>Where the protection of somebody with hands in ends, or they go in without; nought: none of these events.</summary>
    private static int Bared(SafeWorkView view, Check check, ImmutableArray<int> events) =>
        !HandsFinding.IsOfHands(check)
            ? 0
            : view
                .People.SelectMany(person => person.Unprotected?.Intervals ?? [])
                .Select(bare => view.NumberAt(bare.From))
                .Where(number => events.Contains(number))
                .Order()
                .FirstOrDefault();

    private static int First(
        SafeWorkView view,
        ImmutableArray<int> events,
        Func<TimelineEventKind, bool> kinds
    ) => events.FirstOrDefault(number => kinds(view.Events[number - 1].Event.Kind));

    /// <summary>What nobody entered shows where hands first went in, or at the end of what was entered.</summary>
    private static int Missing(SafeWorkView view) =>
        view.Reading.FirstWork is { } work ? view.NumberAt(work.Interval.From) : view.Events[^1].Number;

    /// <summary>Where energy comes back tells more than where work began.</summary>
    private static bool IsTelling(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.LockRemoved
                or TimelineEventKind.TagRemoved
                or TimelineEventKind.BlockageClearedByHand;
}
