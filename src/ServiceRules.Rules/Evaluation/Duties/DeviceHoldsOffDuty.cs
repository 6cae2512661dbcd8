using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Every lock went on with its isolator off, closed or blocked. A position that nobody wrote down is told, no more, unless
/// the isolator was last turned on. A lock on an isolator that takes none is unproven; so is a lock or tag on one that is not
/// known to be an isolator of its source (<see cref="IsolatorUnderLock"/>).
/// </summary>
internal static class DeviceHoldsOffDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var locks = duty
            .Reading.Of(TimelineEventKind.LockApplied)
            .Where(entry => entry.Event.Source is not SourceReference.GroupBox)
            .ToImmutableArray();
        var elsewhere = IsolatorUnderLock.Faults(duty).ToList();
        if (locks.IsEmpty && elsewhere.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock put on an isolator.");
        }

        var faults = locks
            .Select(entry => (Lock: entry, On: TurnedOn(duty, entry)))
            .Where(one => one.On is not null)
            .Select(one => new TimelineFault(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"The record shows lock {one.Lock.Event.Lock} put on {SourceNames.Of(duty, one.Lock.Event.Source)} {duty.Words.AtBy(one.Lock)} with the isolator on{(one.On == one.Lock ? string.Empty : $", as it was turned {duty.Words.AtBy(one.On!)}")}.",
                one.On == one.Lock ? [one.Lock] : [one.On!, one.Lock],
                "Take the lock off, turn the isolator off, lock it off, and verify again."
            ))
            .Concat(locks.SelectMany(entry => WhereNoneFits(duty, entry)))
            .Concat(elsewhere)
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

    // The procedure has it that no lock fits: what the lock held, and how, nothing shows.
    private static IEnumerable<TimelineFault> WhereNoneFits(DutyFrame duty, OrderedEvent entry) =>
        from source in duty.Sources
        where
            source is { HasIsolator: true, Source.Lockable: false }
            && entry.Event.Source is SourceReference.One { Source: var id }
            && id == source.Source.Id
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.ProcedureNotFollowed,
            $"The record shows lock {entry.Event.Lock} put on {TimelineWords.Named(source.Source)} {duty.Words.AtBy(entry)}, whose isolator ({source.Source.Isolator}) takes no lock as it is written down: how the lock held it off is not shown.",
            [entry],
            "Say what the lock held; or keep the plug or the part yourself, or hang a tag at that point, and correct the procedure if a lock fits."
        );

    // An isolator turned off before and not turned on since is off under the lock.
    private static bool IsPositionKnown(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Position is not null
        || LastTurned(duty, entry)?.Event.Position
            is IsolatorPosition.Off
                or IsolatorPosition.Closed
                or IsolatorPosition.Blocked;

    /// <summary>The entry that shows the isolator on under a lock: its own, or the last before it where it says nothing.</summary>
    private static OrderedEvent? TurnedOn(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Position is { } stated
            ? stated == IsolatorPosition.On
                ? entry
                : null
            : LastTurned(duty, entry) is { Event.Position: IsolatorPosition.On } turned
                ? turned
                : null;

    private static OrderedEvent? LastTurned(DutyFrame duty, OrderedEvent entry) =>
        duty
            .Reading.Of(TimelineEventKind.IsolatorOperated)
            .LastOrDefault(other =>
                other.Place() < entry.Place()
                && (
                    entry.Event.Source is SourceReference.One { Source: var source }
                        ? other.Event.SpeaksOf(source)
                        : other.Event.Source == entry.Event.Source
                )
            );
}
