using ServiceRules.Domain;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// What no lock or tag can have gone through: put on again with hands in or a run between and never shown off, taken off
/// without having been on, left on a machine that was handed back. The same step entered again before anything else
/// happened is a repeat and no doubt; who claims a step that another claims, <see cref="StepsClaimedTwice"/> tells.
/// </summary>
internal static class DeviceHistory
{
    /// <summary>One doubt for each contradiction, each naming both entries where there are two.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading) =>
        reading
            .Events.Where(entry => entry.Event.Lock is not null)
            .GroupBy(entry => entry.Event.Lock!.Value)
            .SelectMany(device => Of(reading, device.Key, [.. device]))
            .Concat(LeftOnBox(reading));

    private static IEnumerable<EntryDoubt> Of(
        TimelineReading reading,
        Id<LockDevice> device,
        List<OrderedEvent> entries
    )
    {
        var on = new List<OrderedEvent>();
        OrderedEvent? lastOff = null;
        foreach (var entry in entries)
        {
            switch (entry.Event.Kind)
            {
                case TimelineEventKind.LockApplied or TimelineEventKind.TagApplied:
                    var standing = on.Find(earlier => earlier.Event.Source == entry.Event.Source);
                    if (standing is null)
                    {
                        on.Add(entry);
                    }
                    else if (
                        standing.Event.Actor == entry.Event.Actor
                        && SomethingHappened(reading, standing, entry)
                    )
                    {
                        yield return PutOnTwice(reading, device, standing, entry);
                    }

                    break;
                case TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved:
                    if (on.Count > 0)
                    {
                        var there = on.Find(earlier => earlier.Event.Source == entry.Event.Source);
                        on.RemoveAll(earlier => there is null || earlier == there);
                    }
                    else if (!IsRepeat(reading, lastOff, entry) && !HangsByAnother(reading, device, entry))
                    {
                        yield return NeverOn(reading, device, lastOff, entry);
                    }

                    lastOff = entry;
                    break;
                default:
                    break;
            }
        }

        foreach (var left in on)
        {
            if (HandedBackAfter(reading, left) is { } handedBack)
            {
                yield return LeftOn(reading, device, left, handedBack);
            }
        }
    }

    // What lies between tells a second entry of the same step from a step that was really made again.
    private static bool SomethingHappened(TimelineReading reading, OrderedEvent first, OrderedEvent then) =>
        reading
            .Of(
                TimelineEventKind.WorkStarted,
                TimelineEventKind.TestEnergised,
                TimelineEventKind.MachineStarted
            )
            .Any(entry => first.Place() < entry.Place() && entry.Place() < then.Place());

    private static bool IsRepeat(TimelineReading reading, OrderedEvent? lastOff, OrderedEvent entry) =>
        lastOff is not null
        && lastOff.Event.Actor == entry.Event.Actor
        && !SomethingHappened(reading, lastOff, entry);

    // Put on in another record of the machine: who took it off there is told with that record.
    private static bool HangsByAnother(TimelineReading reading, Id<LockDevice> device, OrderedEvent off) =>
        reading.Others.Any(other =>
            other.Reading.Devices.Any(hung =>
                hung.Device == device
                && hung.Applied.Moment <= off.Moment
                && !(hung.Removed?.Moment <= off.Moment)
            )
        );

    private static OrderedEvent? HandedBackAfter(TimelineReading reading, OrderedEvent left) =>
        reading.Of(TimelineEventKind.HandedBack).FirstOrDefault(entry => entry.Place() > left.Place());

    // The keys of the job locks lie in the box: while anybody's lock is on it, no job lock can have come off.
    private static IEnumerable<EntryDoubt> LeftOnBox(TimelineReading reading) =>
        from own in reading.Devices
        where own.IsOnGroupBox
        let jobLock = reading
            .Devices.Where(device => !device.IsOnGroupBox && IsJobLock(reading, device))
            .Select(device => device.Removed)
            .OfType<OrderedEvent>()
            .FirstOrDefault(off => own.Applied.Moment < off.Moment && !(own.Removed?.Moment <= off.Moment))
        where jobLock is not null
        select new EntryDoubt(
            CredibilityOf.DeviceHistory,
            jobLock.Pointer(),
            $"job lock {jobLock.Event.Lock} is taken off {reading.Words.AtBy(jobLock)} while {own.Device} of {own.Person} hangs on the group box"
                + (own.Removed is { } off ? $" until {reading.Words.Time(off)}" : ", never taken off")
                + ": with its key in the box it cannot have come off",
            Weakens: false
        )
        {
            Against = own.Applied.Pointer(),
        };

    private static bool IsJobLock(TimelineReading reading, DeviceInterval device) =>
        reading.Frame.Context.Locks.FirstOrDefault(known => known.Id == device.Device)
            is { Owner: null, IsTag: false };

    private static EntryDoubt PutOnTwice(
        TimelineReading reading,
        Id<LockDevice> device,
        OrderedEvent first,
        OrderedEvent again
    ) =>
        new(
            CredibilityOf.DeviceHistory,
            again.Pointer(),
            $"{device} was put on {reading.Words.AtBy(first)} and is put on again at {reading.Words.Time(again)}, and no "
                + "entry between takes it off: it was off at some time that the record does not show",
            Weakens: true
        )
        {
            Against = first.Pointer(),
        };

    private static EntryDoubt NeverOn(
        TimelineReading reading,
        Id<LockDevice> device,
        OrderedEvent? lastOff,
        OrderedEvent off
    ) =>
        new(
            CredibilityOf.DeviceHistory,
            off.Pointer(),
            lastOff is null
                ? $"{device} is taken off {reading.Words.AtBy(off)}, and no entry puts it on"
                : $"{device} is taken off {reading.Words.AtBy(off)}, was off since {reading.Words.Time(lastOff)} already, and no "
                    + "entry between puts it on",
            Weakens: true
        )
        {
            Against = lastOff?.Pointer(),
        };

    // It did hang, and what rests on that stands; that it came off is what nothing shows.
    private static EntryDoubt LeftOn(
        TimelineReading reading,
        Id<LockDevice> device,
        OrderedEvent on,
        OrderedEvent handedBack
    ) =>
        new(
            CredibilityOf.DeviceHistory,
            on.Pointer(),
            $"{device} was put on {reading.Words.AtBy(on)} and no entry takes it off, though the machine was handed back at "
                + $"{reading.Words.Time(handedBack)}",
            Weakens: false
        )
        {
            Against = handedBack.Pointer(),
        };
}
