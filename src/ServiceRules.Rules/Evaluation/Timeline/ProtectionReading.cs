using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// When each person was protected: every source proven dead, and every source that can be switched on again under that
/// person's own control, with the machine not running.
/// </summary>
public sealed class ProtectionReading
{
    private readonly TimelineReading reading;
    private readonly Procedure procedure;

    private ProtectionReading(TimelineReading reading, Procedure procedure)
    {
        this.reading = reading;
        this.procedure = procedure;
        Sources = [.. procedure.Sources.Select(source => SourceReading.Of(reading, source))];
    }

    /// <summary>The sources of the written procedure.</summary>
    public ImmutableArray<SourceReading> Sources { get; }

    /// <summary>Reads protection by a written procedure.</summary>
    public static ProtectionReading Of(TimelineReading reading, Procedure procedure)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(procedure);
        return new(reading, procedure);
    }

    /// <summary>When a person was protected.</summary>
    public IntervalSet ProtectedFor(Id<Participant> person) =>
        Sources.Aggregate(
            reading.Running.Complement(),
            (so, source) =>
                so.And(source.Proven).And(source.HasIsolator ? ControlOf(person, source.Source) : so)
        );

    /// <summary>
    /// When a person alone could let a source be switched on again: their own lock on its isolator; their own lock on the
    /// group box while a job lock holds the isolator; a job lock that they hung themselves, if nobody else has hands in.
    /// Where the isolator takes no lock: also their own tag at the lock point, the plug or the key kept by them.
    /// </summary>
    public IntervalSet ControlOf(Id<Participant> person, EnergySource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        var own = Stretches(device => !device.IsTag && device.IsOn(source.Id) && IsOwn(device, person));
        var box = Stretches(device => !device.IsTag && device.IsOnGroupBox && IsOwn(device, person))
            .And(Stretches(device => device.IsOn(source.Id) && HoldsForTheGroup(device, source)));
        return own.Or(box).Or(source.Lockable ? IntervalSet.Never : WithoutLock(person, source));
    }

    /// <summary>Whether a lock is issued to somebody else.</summary>
    internal bool IsIssuedToAnother(DeviceInterval device) =>
        Issue(device) is { Owner: { } owner } && owner != device.Person;

    /// <summary>Whether the register of locks is kept and does not have it.</summary>
    internal bool IsNotRegistered(DeviceInterval device) =>
        !device.IsTag && !reading.Frame.Context.Locks.IsEmpty && Issue(device) is null;

    private IntervalSet WithoutLock(Id<Participant> person, EnergySource source)
    {
        var tags = Stretches(device =>
            device.Person == person && device.IsTagAtLockPoint && device.IsOn(source.Id)
        );
        var started = reading.Energisings.Places().ToImmutableArray();
        var plug = reading
            .Of(TimelineEventKind.PlugControlConfirmed)
            .Where(entry => entry.Event.Actor == person && SourceReading.IsSwitchedBy(source, entry.Event));
        var key = reading
            .Of(TimelineEventKind.KeyRemoved)
            .Where(entry => entry.Event.Actor == person && procedure.Controls.Key);
        return tags.Or(IntervalSet.Latched(plug.Concat(key).Places(), started));
    }

    private IntervalSet Stretches(Func<DeviceInterval, bool> which) =>
        IntervalSet.Of(
            from device in reading.Devices
            where device.HoldsOff && which(device)
            select device.Interval
        );

    private bool IsOwn(DeviceInterval device, Id<Participant> person) =>
        device.Person == person
        && Issue(device) switch
        {
            null => true,
            { Owner: { } owner } => owner == person,
            _ => !device.IsOnGroupBox && reading.HandsIn.Length == 1,
        };

    private bool HoldsForTheGroup(DeviceInterval device, EnergySource source) =>
        device.IsTag ? !source.Lockable && device.IsTagAtLockPoint : Issue(device) is not { Owner: not null };

    private RegisteredLock? Issue(DeviceInterval device) =>
        reading.Frame.Context.Locks.FirstOrDefault(issued => issued.Id == device.Device);
}
