using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>How a step that must stand before hands-on work is told, the same way for every duty.</summary>
internal static class LeadUpOutcome
{
    /// <summary>What makes it good while nobody has begun.</summary>
    public const string DoItFirst = "Do it, and enter it, before touching the unit.";

    private const string StopWork = "Stop work and make safe before hands go in again.";
    private const string AskWhoWas =
        "Ask whoever did the work; enter what they say as a late entry, labelled as such.";

    /// <summary>A step that does not stand where it must.</summary>
    /// <param name="leadUp">What leads up to the work.</param>
    /// <param name="what">After <c>the record does not show</c>.</param>
    /// <param name="late">The entry by which it was done too late, or null.</param>
    /// <param name="why">What stands instead, in brackets after it; empty: nothing.</param>
    /// <param name="entries">Entries that bear on it.</param>
    public static TimelineFault Missing(
        LeadUp leadUp,
        string what,
        OrderedEvent? late = null,
        string why = "",
        params OrderedEvent[] entries
    )
    {
        var words = leadUp.Duty.Words;
        return leadUp.Work switch
        {
            null when leadUp.CanStillBeDone => TimelineFault.NotYet(what + why, DoItFirst, [.. entries]),
            null => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{why}.",
                [.. entries],
                AskWhoWas
            ),
            { } work when late is not null && late.Place().IsInTheMinuteOf(work.Start.Place()) => Untold(
                new(
                    Verdict.NotMet,
                    FindingReason.WrongOrder,
                    $"The record shows {what} at {words.Time(late)}, in the very minute in which work started {words.AtBy(work.Start)}: which came first it cannot tell.",
                    [work.Start, late, .. entries],
                    StopWork
                )
            ),
            { } work when late is not null => new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows {what} {words.OnlyAt(late, work.Start)} work started {words.AtBy(work.Start)}.",
                [work.Start, late, .. entries],
                StopWork
            ),
            { } work => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{why} before work started {words.AtBy(work.Start)}.",
                [work.Start, .. entries],
                StopWork
            ),
        };
    }

    /// <summary>The same, where the record cannot tell whether it was in time.</summary>
    public static TimelineFault Untold(TimelineFault fault) =>
        fault.Verdict == Verdict.NotMet
            ? fault with
            {
                Verdict = Verdict.Unproven,
                Reason = FindingReason.NotCredible,
                Act = "Have somebody who was there say which came first; note the seconds next time.",
            }
            : fault;

    /// <summary>The faults, or met; on a finished job that shows no work, neither.</summary>
    public static CheckOutcome Of(
        LeadUp leadUp,
        IReadOnlyCollection<TimelineFault> faults,
        string shown,
        IReadOnlyCollection<OrderedEvent> restsOn
    )
    {
        if (faults.Count > 0)
        {
            return TimelineOutcome.OfFaults(faults);
        }

        if (leadUp.Work is { } work)
        {
            return TimelineOutcome.Met(
                leadUp.Duty.Reading,
                $"The record shows {shown}, before work started {leadUp.Duty.Words.AtBy(work.Start)}.",
                restsOn
            );
        }

        return leadUp.CanStillBeDone
            ? TimelineOutcome.Met(
                leadUp.Duty.Reading,
                $"The record shows {shown}. No hands-on work has started.",
                restsOn
            )
            : TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {shown}, but not when hands-on work started.",
                restsOn.Evidence(),
                "Enter when hands-on work started and stopped, as a late entry."
            );
    }
}
