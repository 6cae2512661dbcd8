using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Notices by whom they reached. One that names people reached those and whoever gave it, and nobody else; one that names
/// nobody may have reached everybody: it counts, and it is told that it does not say whom. One that names only whoever gave
/// it reached nobody.
/// </summary>
internal static class NoticesGiven
{
    /// <summary>The notices of a kind that can have reached somebody, in judged order.</summary>
    public static ImmutableArray<OrderedEvent> Of(DutyFrame duty, TimelineEventKind kind) =>
        [.. duty.Reading.Of(kind).Where(entry => !IsToOneself(entry))];

    /// <summary>
    /// Which of some notices to rest on, in judged order: one that reached everybody affected, rather believed and rather by
    /// name; else those that did so together, else all. Empty: there is none.
    /// </summary>
    public static ImmutableArray<OrderedEvent> Best(DutyFrame duty, IEnumerable<OrderedEvent> notices)
    {
        ImmutableArray<OrderedEvent> all = [.. notices];
        ImmutableArray<OrderedEvent> believed =
        [
            .. all.Where(entry => !duty.Reading.Weakened.Contains(entry.Pointer())),
        ];
        return OneForAll(duty, believed) is { } sure ? [sure]
            : Missed(duty, believed).IsEmpty ? believed
            : OneForAll(duty, all) is { } one ? [one]
            : all;
    }

    /// <summary>Those affected whom some notices did not reach; everybody where there is no notice.</summary>
    public static ImmutableArray<Id<Participant>> Missed(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> notices
    ) =>
        notices.Any(entry => entry.Event.Others.IsEmpty)
            ? []
            :
            [
                .. JobPeople
                    .Affected(duty)
                    .Except(notices.SelectMany(entry => entry.Event.Others.Append(entry.Event.Actor))),
            ];

    /// <summary>Whom a notice left out, after what the record shows; null: nobody.</summary>
    public static TimelineFault? LeftOut(
        DutyFrame duty,
        string what,
        ImmutableArray<OrderedEvent> notices,
        string until,
        string act
    ) =>
        Missed(duty, notices) is { IsEmpty: false } missed
            ? new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record shows {what} {TimelineWords.List(notices.Select(duty.Words.AtBy))}, and names there nobody but {Named(notices)}: {TimelineWords.List(missed.Select(person => person.Text))} it does not show told{until}.",
                notices,
                act
            )
            : null;

    private static string Named(ImmutableArray<OrderedEvent> notices) =>
        TimelineWords.List(
            notices
                .SelectMany(entry => entry.Event.Others)
                .Select(person => person.Text)
                .Distinct(StringComparer.Ordinal)
        );

    private static OrderedEvent? OneForAll(DutyFrame duty, ImmutableArray<OrderedEvent> notices) =>
        notices
            .Where(entry => Missed(duty, [entry]).IsEmpty)
            .OrderBy(entry => entry.Event.Others.IsEmpty)
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
