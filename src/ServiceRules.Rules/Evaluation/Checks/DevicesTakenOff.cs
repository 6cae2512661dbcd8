using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Locks and tags come off by the hand that put them on. A documented exception needs the owner's absence confirmed before,
/// an attempt to reach them, and the owner told before they work again (29 CFR 1910.147(e)(3)). A job lock may be
/// taken off by whoever is recorded to be in charge of the group or to take the job over.
/// </summary>
internal static class DevicesTakenOff
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading, TimelineWords words)
    {
        foreach (var device in reading.Devices)
        {
            if (
                device.Removed is not { } removed
                || removed.Event.Actor == device.Person
                || IsInCharge(reading, device, removed)
            )
            {
                continue;
            }

            var lacking = removed.Event.Exception is null
                ? "no exception is claimed"
                : WhatTheExceptionLacks(reading, device, removed);
            if (lacking is not null)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.WrongPerson,
                    $"The record shows {(device.IsTag ? "tag" : "lock")} {device.Device} put on by {device.Person} and taken off at {words.Time(removed)} by {removed.Event.Actor}; {lacking}.",
                    [device.Applied, removed],
                    "A lock comes off by the hand that put it on; otherwise the documented exception is followed in full."
                );
            }
        }
    }

    private static bool IsInCharge(TimelineReading reading, DeviceInterval device, OrderedEvent removed) =>
        !device.IsTag
        && reading.Frame.Context.Locks.Any(issued =>
            issued.Id == device.Device && issued is { Owner: null, IsTag: false }
        )
        && reading
            .Of(TimelineEventKind.PrimaryAssigned, TimelineEventKind.HandoverBriefed)
            .Any(entry =>
                entry.Place() < removed.Place() && entry.Event.Others.Contains(removed.Event.Actor)
            );

    private static string? WhatTheExceptionLacks(
        TimelineReading reading,
        DeviceInterval device,
        OrderedEvent removed
    )
    {
        var owner = device.Person;
        var confirmed = Before(reading, TimelineEventKind.AbsenceConfirmed, owner, removed);
        if (confirmed is null)
        {
            return $"the exception claimed needs the absence of {owner} confirmed before, which the record does not show";
        }

        // To say that the lock is off they may be sought before or after it comes off.
        if (!reading.Of(TimelineEventKind.ContactAttempted).Any(entry => Concerns(entry, owner)))
        {
            return $"the exception claimed needs an attempt to reach {owner}, which the record does not show";
        }

        var back = reading.Events.FirstOrDefault(entry =>
            entry.Event.Actor == owner && entry.Place() > confirmed.Place()
        );
        if (back is null)
        {
            return null;
        }

        return reading
            .Of(TimelineEventKind.OwnerInformed)
            .Any(entry => Concerns(entry, owner) && entry.Place() < back.Place())
            ? null
            : $"the exception claimed needs {owner} told before working again, which the record does not show";
    }

    private static OrderedEvent? Before(
        TimelineReading reading,
        TimelineEventKind kind,
        Id<Participant> owner,
        OrderedEvent removed
    ) => reading.Of(kind).FirstOrDefault(entry => entry.Place() < removed.Place() && Concerns(entry, owner));

    private static bool Concerns(OrderedEvent entry, Id<Participant> owner) =>
        entry.Event.Others.IsEmpty || entry.Event.Others.Contains(owner);
}
