using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>What each kind of event must say beyond time and actor.</summary>
public static class EventVocabulary
{
    private static readonly FrozenSet<TimelineEventKind> SourceNeeded = new[]
    {
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
        TimelineEventKind.SourceAdded,
    }.ToFrozenSet();

    private static readonly FrozenSet<TimelineEventKind> LockNeeded = new[]
    {
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.TagRemoved,
    }.ToFrozenSet();

    /// <summary>Whether an event of this kind must name its energy source.</summary>
    public static bool NeedsSource(TimelineEventKind kind) => SourceNeeded.Contains(kind);

    /// <summary>Whether an event of this kind must name its lock or tag.</summary>
    public static bool NeedsLock(TimelineEventKind kind) => LockNeeded.Contains(kind);

    /// <summary>Whether an event of this kind must say what is claimed.</summary>
    public static bool NeedsClaim(TimelineEventKind kind) => kind == TimelineEventKind.ExemptionClaimed;
}
