using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Locks and tags come off by the hand that put them on; outside devices stay with their owners.</summary>
internal static class RemovalDuties
{
    private const string ByOwnHand =
        "A lock comes off by the hand that put it on; otherwise the documented exception is followed in full.";

    /// <summary>Every device.</summary>
    public static CheckOutcome DeviceOffByOwner(DutyFrame duty)
    {
        var removals = Removal.Of(duty).ToImmutableArray();
        return removals.IsEmpty
            ? TimelineOutcome.NotApplicable(
                DevicesOn.Removals(duty).Any()
                    ? "The record shows a lock or tag coming off, and not who put it on."
                    : "The record shows no lock or tag coming off."
            )
            : Judge(
                duty,
                removals,
                removal => !removal.IsByOwner,
                "The record shows every lock and tag taken off by whoever put it on, or by the documented exception."
            );
    }

    /// <summary>Devices that came off by another hand, without all that the documented exception needs.</summary>
    public static IEnumerable<TimelineFault> Faults(DutyFrame duty) =>
        Removal.Of(duty).Where(removal => !removal.IsByOwner).Select(Fault).OfType<TimelineFault>();

    /// <summary>Devices taken off for a test.</summary>
    public static CheckOutcome TestDeviceOwner(DutyFrame duty)
    {
        var removals = Removal.Of(duty).Where(removal => removal.IsForTest).ToImmutableArray();
        return removals.IsEmpty
            ? TimelineOutcome.NotApplicable("The record shows no lock or tag taken off for a test.")
            : Judge(
                duty,
                removals,
                removal => !removal.IsByOwner,
                "The record shows every lock and tag taken off for a test by whoever put it on."
            );
    }

    /// <summary>Nobody of the site takes off the device of somebody from outside, exception or not.</summary>
    public static CheckOutcome OutsideDeviceLeftAlone(DutyFrame duty)
    {
        var taken = Removal
            .Of(duty)
            .Where(removal =>
                duty.IsFromOutside(removal.Owner) && !duty.IsFromOutside(removal.Entry.Event.Actor)
            )
            .ToList();
        var outside = duty.Reading.Devices.Where(device => duty.IsFromOutside(device.Person)).ToList();
        if (taken.Count == 0 && outside.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock or tag of an outside employer.");
        }

        return taken.Count > 0
            ? TimelineOutcome.OfFaults([
                .. taken.Select(removal => new TimelineFault(
                    Verdict.NotMet,
                    FindingReason.WrongPerson,
                    $"The record shows {removal.Named} of {removal.Owner}, who works for an outside employer, taken off {duty.Words.AtBy(removal.Entry)}.",
                    [.. removal.PutOn, removal.Entry],
                    "Leave the lock of an outside employer to its owner, and call their employer."
                )),
            ])
            : TimelineOutcome.Met(
                duty.Reading,
                "The record shows no lock or tag of an outside employer touched by anybody of the site.",
                [.. outside.Select(device => device.Removed).OfType<OrderedEvent>()]
            );
    }

    private static CheckOutcome Judge(
        DutyFrame duty,
        ImmutableArray<Removal> removals,
        Func<Removal, bool> isByAnother,
        string met
    )
    {
        var faults = removals.Where(isByAnother).Select(Fault).OfType<TimelineFault>().ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(duty.Reading, met, [.. removals.Select(removal => removal.Entry)]);
    }

    private static TimelineFault? Fault(Removal removal)
    {
        var lacking =
            !removal.ClaimsException ? "no exception is claimed"
            : removal.ExceptionLacks is { } lacks
                ? $"the exception claimed needs {lacks}, which the record does not show"
            : null;
        var told =
            $"The record shows {removal.Named} put on by {removal.Owner} and taken off {removal.Duty.Words.AtBy(removal.Entry)}";
        return lacking is not null
                ? new(
                    Verdict.NotMet,
                    FindingReason.WrongPerson,
                    $"{told}; {lacking}.",
                    [.. removal.PutOn, removal.Entry],
                    ByOwnHand
                )
            : removal.Duty.Context.RemovalException is null
                ? new(
                    Verdict.Unproven,
                    FindingReason.NotRegistered,
                    $"{told} by the exception {removal.Entry.Event.Exception}, and the register has no written way to do so.",
                    [.. removal.PutOn, removal.Entry],
                    "Enter the site's written way to take off an absent owner's lock, and who is trained in it."
                )
            : null;
    }
}
