using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A lock or tag that came off, held against who put it on.</summary>
/// <param name="Duty">The job.</param>
/// <param name="Device">The device, with the entry that takes it off.</param>
/// <param name="Entry">That entry.</param>
internal sealed record Removal(DutyFrame Duty, DeviceInterval Device, OrderedEvent Entry)
{
    /// <summary>Who put it on.</summary>
    public Id<Participant> Owner => Device.Person;

    /// <summary>What it is called.</summary>
    public string Named => $"{(Device.IsTag ? "tag" : "lock")} {Device.Device}";

    /// <summary>The documented exception is relied on.</summary>
    public bool ClaimsException => Entry.Event.Exception is not null;

    /// <summary>
    /// Taken off by whoever put it on; or a job lock, by whoever is recorded to be in charge or to have taken the job over.
    /// </summary>
    public bool IsByOwner =>
        Entry.Event.Actor == Owner
        || (
            // A tag is nobody's for the group: each comes off by the hand that hung it.
            !Device.IsTag
            && Duty.LockOf(Device.Device) is { Owner: null, IsTag: false }
            && Duty.Reading.Of(TimelineEventKind.PrimaryAssigned, TimelineEventKind.HandoverBriefed)
                .Any(entry =>
                    entry.Place() < Entry.Place()
                    && (
                        entry.Event.Kind == TimelineEventKind.PrimaryAssigned
                            ? GroupWork.Named(entry)
                            : entry.Event.Others
                    ).Contains(Entry.Event.Actor)
                )
        );

    /// <summary>
    /// Taken off for a test or to set the machine in position: said so, or the machine is energised for a test before
    /// anybody works again.
    /// </summary>
    public bool IsForTest
    {
        get
        {
            if (
                Entry.Event.Reason is { } reason
                && (
                    reason.Contains("test", StringComparison.OrdinalIgnoreCase)
                    || reason.Contains("position", StringComparison.OrdinalIgnoreCase)
                )
            )
            {
                return true;
            }

            return Duty.Reading.Events.FirstOrDefault(entry =>
                entry.Place() > Entry.Place()
                && entry.Event.Kind
                    is TimelineEventKind.TestEnergised
                        or TimelineEventKind.MachineStarted
                        or TimelineEventKind.WorkStarted
                        or TimelineEventKind.HandedBack
            )
                is { Event.Kind: TimelineEventKind.TestEnergised };
        }
    }

    /// <summary>The entry that confirms the owner's absence before, or null; the last of them speaks, and may deny it.</summary>
    public OrderedEvent? AbsenceConfirmed =>
        LastOn(TimelineEventKind.AbsenceConfirmed) is { } last && !SaidOtherwise.By(last.Event) ? last : null;

    /// <summary>An entry on the absence, the attempt or the telling whose own words deny it, where no other bears it out; or null.</summary>
    public OrderedEvent? Denied(TimelineEventKind kind) =>
        (kind == TimelineEventKind.AbsenceConfirmed ? LastOn(kind) : Concerning(kind).LastOrDefault())
            is { } said
        && SaidOtherwise.By(said.Event)
            ? said
            : null;

    private OrderedEvent? LastOn(TimelineEventKind kind) =>
        Concerning(kind).LastOrDefault(entry => entry.Place() < Entry.Place());

    /// <summary>
    /// What stands against whoever made a step of the exception: it is for those who are authorised, trained in the written way, or who
    /// may let out what others did. Null: nothing.
    /// </summary>
    public Authority StandingOf(OrderedEvent step) =>
        Duty.PersonOf(step.Event.Actor) is { MayRelease: true }
        || Duty.Context.RemovalException?.Trained.Contains(step.Event.Actor) == true
            ? Authority.Shown
            : Authorities.Of(Duty, step.Event.Actor);

    private string? StepsLack =>
        new[] { AbsenceConfirmed, ContactAttempted, OwnerTold }
            .OfType<OrderedEvent>()
            .FirstOrDefault(step => StandingOf(step) == Authority.Denied)
            is { } step
            ? $"somebody authorised to follow it, and {step.Event.Actor} ({EventWords.Done(step.Event.Kind)}) is not so by the register"
            : null;

    /// <summary>What the owner is shown doing between the confirmation and the removal, or null.</summary>
    public OrderedEvent? SeenMeanwhile =>
        AbsenceConfirmed is { } confirmed
            ? Duty.Reading.Events.FirstOrDefault(entry =>
                entry.Event.Actor == Owner
                && entry.Place() > confirmed.Place()
                && entry.Place() < Entry.Place()
            )
            : null;

    /// <summary>
    /// What shows the owner there from the confirmation until half an hour after the removal, beside the entries of this record
    /// that <see cref="SeenMeanwhile"/> tells; or null. Judgement, no source.
    /// </summary>
    public OwnerSeen? SeenAround =>
        AbsenceConfirmed is { } confirmed ? OwnerSeen.Around(this, confirmed) : null;

    /// <summary>An attempt to reach the owner, or null.</summary>
    public OrderedEvent? ContactAttempted =>
        Concerning(TimelineEventKind.ContactAttempted)
            .FirstOrDefault(entry => !SaidOtherwise.By(entry.Event));

    /// <summary>The first thing that the owner is shown doing after the removal, or null: they are not back.</summary>
    public OrderedEvent? OwnerBack =>
        Duty.Reading.Events.FirstOrDefault(entry =>
            entry.Event.Actor == Owner && entry.Place() > Entry.Place()
        );

    /// <summary>The entry by which the owner was told, or null.</summary>
    public OrderedEvent? OwnerTold =>
        Concerning(TimelineEventKind.OwnerInformed)
            .FirstOrDefault(entry =>
                !SaidOtherwise.By(entry.Event) && (OwnerBack is null || entry.Moment <= OwnerBack.Moment)
            );

    /// <summary>What the claimed exception lacks, or null: nothing, so far.</summary>
    public string? ExceptionLacks =>
        AbsenceConfirmed is null ? $"the absence of {Owner} confirmed before"
        : SeenMeanwhile is not null ? $"{Owner} absent all the while"
        : ContactAttempted is null ? $"an attempt to reach {Owner}"
        : OwnerBack is not null && OwnerTold is null ? $"{Owner} told before working again"
        : StepsLack ?? WrittenWayLacks;

    /// <summary>What the register holds against relying on the exception, or null.</summary>
    public string? WrittenWayLacks =>
        Duty.Context.RemovalException is not { } written ? null
        : !string.Equals(written.Id, Entry.Event.Exception, StringComparison.Ordinal)
            ? $"the site's written way {written.Id} named"
        : written.Trained.Contains(Entry.Event.Actor) ? null
        : $"{Entry.Event.Actor} trained in {written.Id}";

    /// <summary>The entry that put it on; none where that stands in another record.</summary>
    public ImmutableArray<OrderedEvent> PutOn => IsOfAnotherRecord ? [] : [Device.Applied];

    private bool IsOfAnotherRecord { get; init; }

    /// <summary>
    /// Every lock or tag that came off; of those that another record of the machine hung, where the exception is relied on.
    /// </summary>
    public static IEnumerable<Removal> Of(DutyFrame duty) =>
        (
            from device in duty.Reading.Devices
            where device.Removed is not null
            select new Removal(duty, device, device.Removed!)
        ).Concat(HungByOthers(duty));

    // Without the exception, the duty to keep clear of other records tells it.
    private static IEnumerable<Removal> HungByOthers(DutyFrame duty) =>
        from entry in duty.Reading.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved)
        where
            entry.Event.Exception is not null
            && !duty.Reading.Devices.Any(device => device.Removed?.Index == entry.Index)
        let hung = duty
            .Reading.Others.SelectMany(other => other.Reading.Devices)
            .Where(device =>
                device.Device == entry.Event.Lock
                && device.Applied.Moment <= entry.Moment
                && !(device.Removed?.Moment <= entry.Moment)
            )
            .MaxBy(device => device.Applied.Moment)
        where hung is not null && hung.Person != entry.Event.Actor
        select new Removal(duty, hung, entry) { IsOfAnotherRecord = true };

    private IEnumerable<OrderedEvent> Concerning(TimelineEventKind kind) =>
        Duty
            .Reading.Of(kind)
            .Where(entry => entry.Event.Others.IsEmpty || entry.Event.Others.Contains(Owner));
}
