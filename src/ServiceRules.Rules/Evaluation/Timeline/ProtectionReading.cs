using System.Collections.Concurrent;
using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// When each person was protected: every source proven dead, and every source that can be switched on again under that
/// person's own control, with the machine not running.
/// </summary>
public sealed class ProtectionReading
{
    private readonly TimelineReading reading;
    private readonly ImmutableArray<(SourceReading Reading, IntervalSet Absent)> sources;

    private readonly Dictionary<Id<LockDevice>, RegisteredLock> issues;

    // Asked for every stretch of work by several duties: read once for a person and a source.
    private readonly ConcurrentDictionary<
        (Id<Participant> Person, EnergySource Source),
        IntervalSet
    > controls = new();

    private ProtectionReading(TimelineReading reading, ImmutableArray<EffectiveSource> sources)
    {
        this.reading = reading;
        issues = reading
            .Frame.Context.Locks.GroupBy(issued => issued.Id)
            .ToDictionary(same => same.Key, same => same.First());
        this.sources =
        [
            .. sources.Select(source =>
                (
                    SourceReading.Of(reading, source.Source),
                    source.AddedBy is null
                        ? IntervalSet.Never
                        : IntervalSet.Of([new TimelineInterval(TimelinePlace.Beginning, source.From)])
                )
            ),
        ];
        Sources = [.. this.sources.Select(source => source.Reading)];
    }

    /// <summary>The sources of the job: those of the written procedure, then what the register of machines adds, then what came during the job.</summary>
    public ImmutableArray<SourceReading> Sources { get; }

    /// <summary>Reads protection of a job whose sources are written down somewhere; null: they are nowhere.</summary>
    internal static ProtectionReading? Of(TimelineReading reading) =>
        EffectiveSources.AreKnown(reading) ? new(reading, EffectiveSources.Of(reading)) : null;

    /// <summary>When a person was protected.</summary>
    public IntervalSet ProtectedFor(Id<Participant> person) =>
        sources.Aggregate(
            reading.Running.Complement(),
            (so, source) =>
                so.And(
                    source
                        .Reading.Proven.And(
                            source.Reading.HasIsolator
                                ? ControlOf(person, source.Reading.Source)
                                : IntervalSet.Always
                        )
                        .Or(source.Absent)
                )
        );

    /// <summary>The sources that were there at a place of the timeline.</summary>
    internal IEnumerable<SourceReading> SourcesAt(TimelinePlace place) =>
        from source in sources
        where !source.Absent.Contains(place)
        select source.Reading;

    /// <summary>
    /// When a person alone could let a source be switched on again: their own lock on its isolator; their own lock on the
    /// group box while a job lock holds the isolator. A job lock is nobody's own, whoever hung it.
    /// Where the isolator takes no lock: also their own tag at the lock point, the plug or the key kept by them.
    /// </summary>
    public IntervalSet ControlOf(Id<Participant> person, EnergySource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return controls.GetOrAdd((person, source), asked => ReadControl(asked.Person, asked.Source));
    }

    private IntervalSet ReadControl(Id<Participant> person, EnergySource source)
    {
        var own = Stretches(device => !device.IsTag && device.IsOn(source.Id) && IsOwn(device, person));
        var box = Stretches(device => !device.IsTag && device.IsOnGroupBox && IsOwn(device, person))
            .And(Stretches(device => device.IsOn(source.Id) && IsJobLock(device)));
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
        // Started, plugged in again or taken over by somebody else: it is this person's no longer.
        var kept = SourceReading.PlugsKept(reading, source).ToImmutableArray();
        var ended = reading
            .Energisings.Concat(SourceReading.PutOn(reading, source))
            .Concat(kept.Where(entry => entry.Event.Actor != person))
            .Places();
        var own = kept.Concat(SourceReading.KeysKept(reading, source))
            .Where(entry => entry.Event.Actor == person);
        return tags.Or(IntervalSet.Latched(own.Places(), ended));
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
            var issued => issued.Owner == person,
        };

    // A tag has no key that the box could hold.
    private bool IsJobLock(DeviceInterval device) =>
        !device.IsTag && Issue(device) is not { Owner: not null };

    private RegisteredLock? Issue(DeviceInterval device) => issues.GetValueOrDefault(device.Device);
}
