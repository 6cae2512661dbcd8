using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The entries by which a lock, a tag, or what stands for one came to hold a source off.</summary>
internal static class DevicesOn
{
    /// <summary>
    /// A lock or tag on its isolator. Where the isolator takes no lock also the plug, once pulled, or the key by which it is
    /// switched, kept by somebody.
    /// </summary>
    public static IEnumerable<OrderedEvent> Of(DutyFrame duty, EnergySource source) =>
        LocksAndTags(duty, source)
            .Concat(SourceReading.PlugsKept(duty.Reading, source))
            .Concat(SourceReading.KeysKept(duty.Reading, source))
            .OrderBy(entry => entry.Place());

    /// <summary>Those of some entries by which the source was still held when work started, and what ended the last of the others.</summary>
    public static (ImmutableArray<OrderedEvent> Still, OrderedEvent? Ended) StillOn(
        LeadUp leadUp,
        EnergySource source,
        ImmutableArray<OrderedEvent> entries
    )
    {
        var reading = leadUp.Duty.Reading;
        var ended = entries.ToDictionary(
            entry => entry,
            entry =>
                entry.Event.Lock is { } device
                    ? EndedBy(reading, device, source, entry)
                    : SourceReading.PutOn(reading, source).FirstOrDefault(on => on.Place() > entry.Place())
        );
        var still = entries
            .Where(entry => ended[entry] is not { } off || !leadUp.Contains(off))
            .ToImmutableArray();
        return (
            still,
            still.IsEmpty
                ? entries.Select(entry => ended[entry]).OfType<OrderedEvent>().MaxBy(off => off.Place())
                : null
        );
    }

    /// <summary>Locks and tags only.</summary>
    public static IEnumerable<OrderedEvent> LocksAndTags(DutyFrame duty, EnergySource source) =>
        duty
            .Reading.Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
            .Where(entry => entry.Event.SpeaksOf(source.Id));

    /// <summary>The first entry by which anybody put a control on, or null: nobody ever did.</summary>
    public static OrderedEvent? First(DutyFrame duty) =>
        duty.Reading.Events.FirstOrDefault(entry => IsControl(entry.Event.Kind));

    /// <summary>Whether an entry of this kind puts a control on.</summary>
    public static bool IsControl(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.PlugControlConfirmed;

    /// <summary>The entries by which locks and tags came off.</summary>
    public static IEnumerable<OrderedEvent> Removals(DutyFrame duty) =>
        duty.Reading.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved);

    // An entry that puts on what hangs already hangs no longer than that.
    private static OrderedEvent? EndedBy(
        TimelineReading reading,
        Id<LockDevice> device,
        EnergySource source,
        OrderedEvent entry
    ) =>
        reading
            .Devices.LastOrDefault(on =>
                on.Device == device && on.IsOn(source.Id) && on.Applied.Place() <= entry.Place()
            )
            ?.Removed;
}
