using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>When one energy source was off, held off, without stored energy, and proven dead.</summary>
public sealed record SourceReading
{
    private static readonly Id<EnergySource> Gravity = new("gravity");
    private static readonly Id<EnergySource> ReelRotation = new("reel_rotation");
    private static readonly Id<EnergySource> MechanicalCoupling = new("mechanical_coupling");

    // A key in a pocket keeps an engine from being started. A valve, a raised unit or what was plugged in it does not hold.
    private static readonly ImmutableArray<Id<EnergySource>> SwitchedByKey =
    [
        new("engine_start"),
        new("battery_drive"),
    ];

    private static readonly (IntervalSet Shown, IntervalSet Denied) Always = (
        IntervalSet.Always,
        IntervalSet.Never
    );

    private SourceReading(EnergySource source) => Source = source;

    /// <summary>The source, as the procedure describes it.</summary>
    public EnergySource Source { get; }

    /// <summary>There is something to switch off, and so to hold off.</summary>
    public bool HasIsolator => Source.Isolator is not null;

    /// <summary>
    /// Its isolator was off. That ends when the last lock or tag comes off it, when it is put on again, and when the
    /// machine is started, or the source plugged in, with nothing on it; and with an entry of it that says of how that it was
    /// not turned off. Where only the lock or tag came off, it begins again with one that is hung with its position entered as
    /// off. Always, where there is nothing to switch off.
    /// </summary>
    public required IntervalSet Isolated { get; init; }

    /// <summary>Entered as off, last by an entry that says of how that it was not: nothing shows it off, nor for certain on.</summary>
    public required IntervalSet IsolationDenied { get; init; }

    /// <summary>The same of its release: entered as released or restrained, last by an entry that says of how that it was not.</summary>
    public required IntervalSet ReleaseDenied { get; init; }

    /// <summary>The same of its proof: entered as proven dead, last by an entry that says of how that it was not.</summary>
    public required IntervalSet ProofDenied { get; init; }

    /// <summary>A lock or tag of anybody was on its isolator, in a safe position.</summary>
    public required IntervalSet Held { get; init; }

    /// <summary>
    /// Its stored energy was released or restrained, after it was isolated. That ends with the isolation, when the machine
    /// is started, and when its pressure is read above the limit with nobody at work. Always, where none is stored.
    /// </summary>
    public required IntervalSet Released { get; init; }

    /// <summary>
    /// Proven dead: verified while isolated, held (where the isolator takes a lock) and released. That ends with any of
    /// them, and when energy was released again before anybody worked since the machine last ran; once hands were in, it is no
    /// less dead for being released once more. Verified while the machine ran is not proven. A plug that is out and kept needs no more proof;
    /// on the bench neither does a wedge or a support, which are seen to hold.
    /// </summary>
    public required IntervalSet Proven { get; init; }

    /// <summary>
    /// The same by an entry that verifies it, of somebody not shown to be without authority to: a plug that is out and kept
    /// protects, and is no proof that anybody made.
    /// </summary>
    public required IntervalSet Verified { get; init; }

    /// <summary>Reads one source.</summary>
    public static SourceReading Of(TimelineReading reading, EnergySource source)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(source);
        var held = HeldOf(reading, source);
        var isolated = source.Isolator is null ? Always : IsolatedOf(reading, source, held);
        var released = source.Stored ? ReleasedOf(reading, source, isolated.Shown) : Always;
        var ready = isolated
            .Shown.And(released.Shown)
            .And(source is { Isolator: not null, Lockable: true } ? held : IntervalSet.Always);
        var proven = IsSeenToHold(reading, source)
            ? (Shown: ready, Denied: IntervalSet.Never)
            : ProvenOf(
                reading,
                source,
                ready,
                Verifications(reading, source).Concat(PlugsKept(reading, source))
            );
        var verified = IsSeenToHold(reading, source)
            ? ready
            : ProvenOf(
                reading,
                source,
                ready,
                Verifications(reading, source)
                    .Where(entry => Authorities.Of(reading.Frame, entry.Event.Actor) == Authority.Shown)
            ).Shown;
        return new(source)
        {
            Isolated = isolated.Shown,
            IsolationDenied = isolated.Denied,
            Held = held,
            Released = released.Shown,
            ReleaseDenied = released.Denied,
            Proven = proven.Shown,
            ProofDenied = proven.Denied,
            Verified = verified,
        };
    }

    /// <summary>The entries by which a source was switched off, those that say of how that it was not among them.</summary>
    internal static IEnumerable<OrderedEvent> Isolations(TimelineReading reading, EnergySource source) =>
        reading
            .Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved)
            .Where(entry =>
                entry.Event.Position != IsolatorPosition.On && IsSwitchedBy(reading, source, entry.Event)
            );

    /// <summary>
    /// The entries by which its stored energy was released or restrained; what was read above the limit was not released.
    /// </summary>
    internal static IEnumerable<OrderedEvent> Releases(TimelineReading reading, EnergySource source) =>
        reading.Events.Where(entry =>
            entry.Event.Kind == TimelineEventKind.StoredEnergyReleased
                ? entry.Event.SpeaksOf(source.Id) && !IsAboveLimit(source, entry.Event)
                : RestrainsBySight(source.Id, entry.Event.Kind) && IsSaidOf(source.Id, entry.Event)
        );

    /// <summary>The entries by which it was verified dead; what was read above the limit was not dead.</summary>
    internal static IEnumerable<OrderedEvent> Verifications(TimelineReading reading, EnergySource source) =>
        reading
            .Of(TimelineEventKind.IsolationVerified)
            .Where(entry => entry.Event.SpeaksOf(source.Id) && !IsAboveLimit(source, entry.Event));

    /// <summary>The entries that say what its pressure was: at a release, at a proof or at a check in between.</summary>
    internal static IEnumerable<OrderedEvent> PressuresRead(TimelineReading reading, EnergySource source) =>
        reading
            .Of(
                TimelineEventKind.StoredEnergyReleased,
                TimelineEventKind.IsolationVerified,
                TimelineEventKind.StoredEnergyRechecked
            )
            .Where(entry => entry.Event.Pressure is not null && entry.Event.SpeaksOf(source.Id));

    /// <summary>The pressure that an entry tells is above the limit that is stated for the source.</summary>
    internal static bool IsAboveLimit(EnergySource source, TimelineEvent entry) =>
        source.RecheckLimit is { } limit && entry.Pressure is { } read && read > limit;

    /// <summary>
    /// The entries by which it was switched on or plugged in again: what was done before holds no longer. What is plugged in
    /// behind an isolator that a lock holds off stays off.
    /// </summary>
    internal static IEnumerable<OrderedEvent> PutOn(TimelineReading reading, EnergySource source) =>
        PutOn(reading, source, HeldOf(reading, source));

    private static IEnumerable<OrderedEvent> PutOn(
        TimelineReading reading,
        EnergySource source,
        IntervalSet held
    ) =>
        reading
            .Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.SourceAdded)
            .Where(entry =>
                (
                    entry.Event.Kind == TimelineEventKind.SourceAdded
                        ? !held.Contains(entry.Place())
                        : entry.Event.Position == IsolatorPosition.On
                ) && entry.Event.SpeaksOf(source.Id)
            );

    private static IntervalSet HeldOf(TimelineReading reading, EnergySource source) =>
        IntervalSet.Of(
            from device in reading.Devices
            where device.HoldsOff && device.IsOn(source.Id)
            select device.Interval
        );

    /// <summary>
    /// A plug and what is done with it concern its own source; where no source is entered, the one whose isolator takes no
    /// lock, if there is but one.
    /// </summary>
    internal static bool IsSwitchedBy(TimelineReading reading, EnergySource source, TimelineEvent entry) =>
        entry.SpeaksOf(source.Id)
        || (
            entry.Source is null
            && source.Id == reading.SourceOfPlug
            && entry.Kind is TimelineEventKind.PlugRemoved or TimelineEventKind.PlugControlConfirmed
        );

    /// <summary>
    /// The entries by which the plug of a source is kept by somebody, once it was pulled. Under somebody's eyes is not
    /// locked: where the isolator takes a lock there are none, and a plug that is still in is not kept.
    /// </summary>
    internal static IEnumerable<OrderedEvent> PlugsKept(TimelineReading reading, EnergySource source)
    {
        if (source.Lockable)
        {
            return [];
        }

        var pulled = reading
            .Of(TimelineEventKind.PlugRemoved)
            .FirstOrDefault(entry => IsSwitchedBy(reading, source, entry.Event));
        return reading
            .Of(TimelineEventKind.PlugControlConfirmed)
            .Where(entry =>
                pulled is not null
                && pulled.Moment <= entry.Moment
                && IsSwitchedBy(reading, source, entry.Event)
            );
    }

    /// <summary>
    /// The entries by which the key that a source cannot be switched on without is kept by somebody. It locks nothing: it
    /// counts for what a key switches, and only where the isolator takes no lock.
    /// </summary>
    internal static IEnumerable<OrderedEvent> KeysKept(TimelineReading reading, EnergySource source) =>
        !source.Lockable
        && SwitchedByKey.Contains(source.Id)
        && reading.Frame.Procedure is { Controls.Key: true }
            ? reading.Of(TimelineEventKind.KeyRemoved).Where(entry => IsSaidOf(source.Id, entry.Event))
            : [];

    // Where a step names its source, it holds that one and no other.
    private static bool IsSaidOf(Id<EnergySource> source, TimelineEvent entry) =>
        entry.Source is null || entry.SpeaksOf(source);

    // What is denied last is not shown by what stands before it; what ends a state ends its denial too, and shows it ended.
    private static (IntervalSet Shown, IntervalSet Denied) Latched(
        IEnumerable<OrderedEvent> entries,
        Func<TimelinePlace, bool> counts,
        IReadOnlyCollection<TimelinePlace> ends
    )
    {
        var told = entries.ToLookup(entry => SaidOtherwise.By(entry.Event), entry => entry.Place());
        return (
            IntervalSet.Latched(told[false].Where(counts), ends.Concat(told[true])),
            IntervalSet.Latched(told[true].Where(counts), ends.Concat(told[false]))
        );
    }

    private static (IntervalSet Shown, IntervalSet Denied) IsolatedOf(
        TimelineReading reading,
        EnergySource source,
        IntervalSet held
    )
    {
        var on = reading
            .Energisings.Places()
            .Where(place => !held.Contains(place))
            .Concat(PutOn(reading, source, held).Places())
            .ToHashSet();
        return Latched(
            Isolations(reading, source).Concat(SeenStillOff.By(reading, source, held, on)),
            _ => true,
            [.. held.Ends, .. on]
        );
    }

    private static (IntervalSet Shown, IntervalSet Denied) ReleasedOf(
        TimelineReading reading,
        EnergySource source,
        IntervalSet isolated
    ) =>
        Latched(
            Releases(reading, source),
            isolated.Contains,
            [.. reading.Energisings.Places(), .. isolated.Ends, .. ReadTooHigh(reading, source).Places()]
        );

    // With hands in, a reading too high is judged by whether they came out.
    private static IEnumerable<OrderedEvent> ReadTooHigh(TimelineReading reading, EnergySource source) =>
        PressuresRead(reading, source)
            .Where(entry => IsAboveLimit(source, entry.Event) && !reading.AnyWork.Contains(entry.Place()));

    private static (IntervalSet Shown, IntervalSet Denied) ProvenOf(
        TimelineReading reading,
        EnergySource source,
        IntervalSet ready,
        IEnumerable<OrderedEvent> proofs
    )
    {
        // Until hands go in the proof comes last; in a break what is let off once more was proven off before.
        var releasedAgain = reading
            .Of(TimelineEventKind.StoredEnergyReleased)
            .Where(entry => entry.Event.SpeaksOf(source.Id) && !IsAfterWork(reading, entry));
        return Latched(
            proofs.Where(entry =>
                entry.Event.Kind != TimelineEventKind.IsolationVerified
                || (RunThen.At(reading, entry) is null && !IsProvenAgainByUnauthorised(reading, entry))
            ),
            ready.Contains,
            [.. ready.Ends, .. releasedAgain.Places()]
        );
    }

    /// <summary>
    /// A proof after hands were in, by somebody whom the register shows as not authorised: it proves nothing. Of the first one
    /// the duty to verify says so.
    /// </summary>
    internal static bool IsProvenAgainByUnauthorised(TimelineReading reading, OrderedEvent verified) =>
        reading.FirstWork is { } first
        && first.Start.Place() < verified.Place()
        && Authorities.Of(reading.Frame, verified.Event.Actor) == Authority.Denied;

    private static bool IsAfterWork(TimelineReading reading, OrderedEvent released) =>
        reading.Works.Any(work =>
            work.Start.Place() < released.Place()
            && !reading.Energisings.Any(run =>
                work.Start.Place() < run.Place() && run.Place() < released.Place()
            )
        );

    private static bool IsSeenToHold(TimelineReading reading, EnergySource source) =>
        source.Isolator is null && reading.Frame.Record.Place == WorkPlace.OnBench;

    private static bool RestrainsBySight(Id<EnergySource> source, TimelineEventKind kind) =>
        kind switch
        {
            TimelineEventKind.UnitsLowered or TimelineEventKind.UnitSupported => source == Gravity,
            TimelineEventKind.SeenAtRest => source == ReelRotation,
            TimelineEventKind.ReelWedged => source == ReelRotation || source == MechanicalCoupling,
            _ => false,
        };
}
