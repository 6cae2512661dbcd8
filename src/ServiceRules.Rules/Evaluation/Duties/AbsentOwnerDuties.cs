using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What the documented exception asks for the device of an owner who is not there.</summary>
internal static class AbsentOwnerDuties
{
    /// <summary>Their absence was confirmed before, and nothing shows them there meanwhile.</summary>
    public static CheckOutcome OwnerAbsent(DutyFrame duty) =>
        Judge(
            duty,
            removal =>
                removal switch
                {
                    { AbsenceConfirmed: null } => (
                        $"does not show the absence of {removal.Owner} confirmed before",
                        []
                    ),
                    { SeenMeanwhile: { } seen } => (
                        $"shows {EventWords.Done(seen.Event.Kind)} {duty.Words.AtBy(seen)} meanwhile",
                        [seen]
                    ),
                    _ => null,
                },
            "See that the owner is not there before their lock comes off.",
            removal => removal.AbsenceConfirmed,
            "The record shows the owner's absence confirmed before the lock came off."
        );

    /// <summary>Somebody tried to reach them.</summary>
    public static CheckOutcome OwnerSought(DutyFrame duty) =>
        Judge(
            duty,
            removal =>
                removal.ContactAttempted is null
                    ? ($"does not show an attempt to reach {removal.Owner}", [])
                    : null,
            "Try to reach the owner by every way there is, and enter each try.",
            removal => removal.ContactAttempted,
            "The record shows that the owner was sought."
        );

    /// <summary>They were told before they took up work again.</summary>
    public static CheckOutcome OwnerTold(DutyFrame duty)
    {
        var waiting = Claimed(duty)
            .Where(removal => removal is { OwnerBack: null, OwnerTold: null })
            .ToList();
        var outcome = Judge(
            duty,
            removal =>
                removal is { OwnerBack: { } back, OwnerTold: null }
                    ? (
                        $"does not show {removal.Owner} told before {EventWords.Done(back.Event.Kind)} at {duty.Words.Time(back)}",
                        [back]
                    )
                    : null,
            "Tell the owner before they work again.",
            removal => removal.OwnerTold,
            "The record shows the owner told before working again."
        );
        if (outcome.Verdict == Verdict.NotMet || waiting.Count == 0)
        {
            return outcome;
        }

        // It waits for the owner, and the machine does not wait with it.
        var names = TimelineWords.List(
            waiting.Select(removal => removal.Owner.Text).Distinct(StringComparer.Ordinal)
        );
        return TimelineOutcome.NotApplicable(
            $"The record does not show {names} back at work since their lock came off, so not yet whether they were told in time."
        ) with
        {
            Notices = [$"Tell {names} that the lock is off before they work again."],
            Evidence = waiting.Select(removal => removal.Entry).Evidence(),
        };
    }

    private static ImmutableArray<Removal> Claimed(DutyFrame duty) =>
        [.. Removal.Of(duty).Where(removal => removal is { ClaimsException: true, IsByOwner: false })];

    private static CheckOutcome Judge(
        DutyFrame duty,
        Func<Removal, (string What, ImmutableArray<OrderedEvent> Entries)?> lacking,
        string act,
        Func<Removal, OrderedEvent?> restsOn,
        string met
    )
    {
        var claimed = Claimed(duty);
        if (claimed.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no lock or tag taken off by the exception for an absent owner."
            );
        }

        var faults =
            from removal in claimed
            let lacks = lacking(removal)
            where lacks is not null
            select new TimelineFault(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record shows {removal.Named} of {removal.Owner} taken off {duty.Words.AtBy(removal.Entry)} by exception {removal.Entry.Event.Exception}, and {lacks.Value.What}.",
                [removal.Entry, .. lacks.Value.Entries],
                act
            );
        var found = faults.ToList();
        return found.Count > 0
            ? TimelineOutcome.OfFaults(found)
            : TimelineOutcome.Met(
                duty.Reading,
                met,
                [.. claimed.Select(restsOn).OfType<OrderedEvent>().Distinct()]
            );
    }
}
