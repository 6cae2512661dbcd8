using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>A step that took a hand at a unit, outside the hands-on work of whoever made it.</summary>
/// <param name="Number">The event, by its number.</param>
/// <param name="At">When, as entered.</param>
/// <param name="What">The step, in words.</param>
/// <param name="Done">The same as findings call it.</param>
/// <param name="Protection">What is shown of that person's protection at that moment.</param>
/// <param name="Letter">The finding that holds it against them; null: none does.</param>
internal sealed record HandStep(
    int Number,
    RecordedTime At,
    string What,
    string Done,
    StepProtection Protection,
    string? Letter
)
{
    private const int MostTold = 6;

    /// <summary>Whether anything is held against it.</summary>
    public bool IsBare => Letter is not null || Protection == StepProtection.NotShown;

    /// <summary>All of one person, in order.</summary>
    /// <param name="view">The job.</param>
    /// <param name="person">Who.</param>
    /// <param name="covered">When that person was protected; null: no written procedure says from what.</param>
    public static ImmutableArray<HandStep> Of(
        SafeWorkView view,
        Id<Participant> person,
        IntervalSet? covered
    ) =>
        [
            .. from step in StepByHand.Of(view.Reading)
            where step.Person == person
            let marked = MarkOf(view, step)
            let letter = marked?.Letter
            select new HandStep(
                view.NumberAt(step.Place),
                step.Entry.Event.At,
                ReportWords.Of(step.Entry.Event.Kind),
                step.Done,
                Left(ProtectionAt(view, step, covered, letter), marked),
                letter
            ),
        ];

    /// <summary>Some of them in a few words.</summary>
    public static string Told(SafeWorkView view, ImmutableArray<HandStep> all)
    {
        var more = all.Length > MostTold ? $"; and {all.Length - MostTold} more" : "";
        return string.Join("; ", all.Take(MostTold).Select(one => one.Told(view))) + more;
    }

    private string Told(SafeWorkView view) =>
        $"{What} at {view.When(At)} ({Number}), {Word(view)}{(Letter is null ? "" : $" ({Letter})")}";

    private string Word(SafeWorkView view) =>
        view.Found.Exemption is not null && Letter is null
            ? "without lockout"
            : Protection switch
            {
                StepProtection.Shown => Letter is null
                    ? "protected"
                    : "protected as entered, with a finding against it",
                StepProtection.LeftOpen => "protection not proven",
                StepProtection.NotProven => "shown as protected but not proven",
                StepProtection.OffBeforeProof =>
                    "before work: every source off and held, proof still to come",
                StepProtection.NotAskedYet => "before work: nothing asked of it yet",
                StepProtection.CannotBeTold => "protection cannot be told",
                StepProtection.NotShown => "not shown as protected",
                var other => throw new ArgumentOutOfRangeException(nameof(view), other, null),
            };

    private static MarkedFinding? MarkOf(SafeWorkView view, StepByHand step) =>
        view.Marked.FirstOrDefault(one =>
            HandsFinding.IsOfHands(one.Told) && one.Told.Finding.Evidence.Contains(step.Pointer)
        );

    // No harder word than the finding's own.
    private static StepProtection Left(StepProtection shown, MarkedFinding? marked) =>
        shown == StepProtection.NotShown && marked is { Told.Finding.Verdict: Verdict.Unproven }
            ? StepProtection.LeftOpen
            : shown;

    private static StepProtection ProtectionAt(
        SafeWorkView view,
        StepByHand step,
        IntervalSet? covered,
        string? letter
    ) =>
        view.Reading.Running.Contains(step.Place) ? StepProtection.NotShown
        : step is { IsBeforeWork: true, Entry.Event.Kind: TimelineEventKind.UnitSupported }
            ? (letter is null ? StepProtection.NotAskedYet : StepProtection.NotShown)
        : covered is null ? StepProtection.CannotBeTold
        : step.IsBeforeWork ? (letter is null ? StepProtection.OffBeforeProof : StepProtection.NotShown)
        : !step.IsIn(covered) ? StepProtection.NotShown
        : ProtectionProof.IsWeak(view, step.Place) ? StepProtection.NotProven
        : StepProtection.Shown;
}
