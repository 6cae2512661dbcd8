using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every lock went on with its isolator off, closed or blocked. A position that nobody wrote down is told, no more.</summary>
internal static class DeviceHoldsOffDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var locks = duty
            .Reading.Of(TimelineEventKind.LockApplied)
            .Where(entry => entry.Event.Source is not SourceReference.GroupBox)
            .ToImmutableArray();
        if (locks.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock put on an isolator.");
        }

        var faults = locks
            .Where(entry => entry.Event.Position == IsolatorPosition.On)
            .Select(entry => new TimelineFault(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows lock {entry.Event.Lock} put on {SourceNames.Of(duty, entry.Event.Source)} {duty.Words.AtBy(entry)} with the isolator on.",
                [entry],
                "Take the lock off, turn the isolator off, lock it off, and verify again."
            ))
            .ToList();
        if (faults.Count > 0)
        {
            return TimelineOutcome.OfFaults(faults);
        }

        var silent = locks.Where(entry => !IsPositionKnown(duty, entry)).ToList();
        var met = TimelineOutcome.Met(
            duty.Reading,
            "The record shows no lock put on with its isolator on.",
            locks
        );
        return silent.Count == 0
            ? met
            : met with
            {
                Notices =
                [
                    .. met.Notices,
                    $"The record does not state the position of the isolator under {TimelineWords.List(silent.Select(entry => $"lock {entry.Event.Lock}").Distinct(StringComparer.Ordinal))}.",
                ],
            };
    }

    // An isolator turned off before and not turned on since is off under the lock.
    private static bool IsPositionKnown(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Position is not null
        || duty
            .Reading.Of(TimelineEventKind.IsolatorOperated)
            .LastOrDefault(other =>
                other.Place() < entry.Place()
                && (
                    entry.Event.Source is SourceReference.One { Source: var source }
                        ? other.Event.SpeaksOf(source)
                        : other.Event.Source == entry.Event.Source
                )
            )
            ?.Event.Position
            is IsolatorPosition.Off
                or IsolatorPosition.Closed
                or IsolatorPosition.Blocked;
}
