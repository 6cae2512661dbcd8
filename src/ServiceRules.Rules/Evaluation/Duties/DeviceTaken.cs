using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A lock or tag that one record shows hanging and another shows taken off.</summary>
/// <param name="Entry">The entry that takes it off.</param>
/// <param name="Device">The device in the record that hung it.</param>
/// <param name="Hands">Whose hands were in behind it then; empty: nobody's.</param>
/// <param name="IsByAnother">Another hand than that which put it on took it off, without what the exception asks for.</param>
internal sealed record DeviceTaken(
    OrderedEvent Entry,
    DeviceInterval Device,
    ImmutableArray<HandsKnown> Hands,
    bool IsByAnother
)
{
    /// <summary>What it is called.</summary>
    public string Named => $"{(Device.IsTag ? "tag" : "lock")} {Device.Device}";

    /// <summary>What one record takes off of what another hung, where that was not by its owner with hands out.</summary>
    /// <param name="duty">The job, for its register of locks.</param>
    /// <param name="taker">The record that takes off.</param>
    /// <param name="owner">The record that hung it.</param>
    public static IEnumerable<DeviceTaken> In(DutyFrame duty, TimelineReading taker, TimelineReading owner)
    {
        foreach (var entry in taker.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved))
        {
            if (taker.Devices.Any(device => device.Removed?.Index == entry.Index))
            {
                continue;
            }

            var hung = owner.Devices.FirstOrDefault(device =>
                device.Device == entry.Event.Lock
                && device.Applied.Moment <= entry.Moment
                && !(device.Removed?.Moment <= entry.Moment)
            );
            if (hung is null)
            {
                continue;
            }

            var isJobLock = duty.LockOf(hung.Device) is { Owner: null, IsTag: false };
            ImmutableArray<HandsKnown> hands =
            [
                .. HandsKnown
                    .In(owner, taker)
                    .Where(hands =>
                        (isJobLock || hands.Person == hung.Person)
                        && hands.From <= entry.Moment
                        && entry.Moment < hands.Until
                    ),
            ];
            var isByAnother =
                entry.Event.Actor != hung.Person
                && !(isJobLock && IsInCharge(entry, taker, owner))
                && !IsExcepted(entry, taker);
            if (isByAnother || !hands.IsEmpty)
            {
                yield return new(entry, hung, hands, isByAnother);
            }
        }
    }

    private static bool IsInCharge(OrderedEvent entry, TimelineReading taker, TimelineReading owner) =>
        new[] { taker, owner }
            .SelectMany(reading =>
                reading.Of(TimelineEventKind.PrimaryAssigned, TimelineEventKind.HandoverBriefed)
            )
            .Any(named =>
                named.Moment <= entry.Moment
                && (
                    named.Event.Kind == TimelineEventKind.PrimaryAssigned
                        ? GroupWork.Named(named)
                        : named.Event.Others
                ).Contains(entry.Event.Actor)
            );

    // What else the written exception asks for, its own duties tell.
    private static bool IsExcepted(OrderedEvent entry, TimelineReading taker) =>
        entry.Event.Exception is not null
        && new[] { TimelineEventKind.AbsenceConfirmed, TimelineEventKind.ContactAttempted }.All(kind =>
            taker.Of(kind).Any(step => step.Place() < entry.Place() && !SaidOtherwise.By(step.Event))
        );
}
