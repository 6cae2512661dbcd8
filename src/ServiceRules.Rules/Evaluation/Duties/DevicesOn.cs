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

    /// <summary>Locks and tags only.</summary>
    public static IEnumerable<OrderedEvent> LocksAndTags(DutyFrame duty, EnergySource source) =>
        duty
            .Reading.Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
            .Where(entry => entry.Event.SpeaksOf(source.Id));

    /// <summary>The first entry by which anybody put a control on, or null: nobody ever did.</summary>
    public static OrderedEvent? First(DutyFrame duty) =>
        duty
            .Reading.Of(
                TimelineEventKind.LockApplied,
                TimelineEventKind.TagApplied,
                TimelineEventKind.PlugControlConfirmed
            )
            .FirstOrDefault();

    /// <summary>The entries by which locks and tags came off.</summary>
    public static IEnumerable<OrderedEvent> Removals(DutyFrame duty) =>
        duty.Reading.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved);
}
