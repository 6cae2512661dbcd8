using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Notices by whom they reached. One that names nobody may have reached everybody: it counts, and it is told that it does
/// not say whom. One that names only whoever gave it reached nobody.
/// </summary>
internal static class NoticesGiven
{
    /// <summary>The notices of a kind that can have reached somebody, in judged order.</summary>
    public static ImmutableArray<OrderedEvent> Of(DutyFrame duty, TimelineEventKind kind) =>
        [.. duty.Reading.Of(kind).Where(entry => !IsToOneself(entry))];

    /// <summary>Which of some notices to rest on: one that is believed, and of those one that says whom it reached.</summary>
    public static OrderedEvent? Best(DutyFrame duty, IEnumerable<OrderedEvent> notices) =>
        notices
            .OrderBy(entry => duty.Reading.Weakened.Contains(entry.Pointer()))
            .ThenBy(entry => entry.Event.Others.IsEmpty)
            .FirstOrDefault();

    /// <summary>What stands instead of a notice, in brackets after a blank; empty: nothing.</summary>
    public static string Instead(DutyFrame duty, TimelineEventKind kind) =>
        duty.Reading.Of(kind).FirstOrDefault(IsToOneself) is { } entry
            ? $" (the entry at {duty.Words.Time(entry)} names only {entry.Event.Actor}, who gave it)"
            : string.Empty;

    /// <summary>An outcome that rests on notices, with what they leave open.</summary>
    public static CheckOutcome WithRemark(
        this CheckOutcome outcome,
        DutyFrame duty,
        params IEnumerable<OrderedEvent> notices
    ) =>
        outcome with
        {
            Notices =
            [
                .. outcome.Notices,
                .. notices
                    .Where(entry => entry.Event.Others.IsEmpty)
                    .Select(entry =>
                        $"The notice at {duty.Words.Time(entry)} names nobody: who was told is not shown."
                    ),
            ],
        };

    private static bool IsToOneself(OrderedEvent entry) =>
        !entry.Event.Others.IsEmpty && entry.Event.Others.All(person => person == entry.Event.Actor);
}
