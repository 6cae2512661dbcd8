using System.Collections.Frozen;
using System.Collections.Immutable;

namespace ServiceRules.Domain.Timeline;

/// <summary>What each kind of event must and may say beyond time and actor.</summary>
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

    // What comes off an isolator says nothing of how it was left: turning it on is an entry of its own.
    private static readonly FrozenSet<TimelineEventKind> OnIsolators = new[]
    {
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
    }.ToFrozenSet();

    private static readonly FrozenDictionary<EventMember, ImmutableArray<TimelineEventKind>> Kinds =
        new Dictionary<EventMember, ImmutableArray<TimelineEventKind>>
        {
            [EventMember.Source] =
            [
                .. SourceNeeded,
                TimelineEventKind.PlugRemoved,
                TimelineEventKind.PlugControlConfirmed,
                TimelineEventKind.KeyRemoved,
                TimelineEventKind.UnitsLowered,
                TimelineEventKind.UnitSupported,
                TimelineEventKind.ReelWedged,
            ],
            [EventMember.Lock] = [.. LockNeeded],
            [EventMember.Position] = [.. OnIsolators],
            [EventMember.Isolator] = [.. OnIsolators, TimelineEventKind.PlugRemoved],
            [EventMember.Pressure] =
            [
                TimelineEventKind.StoredEnergyReleased,
                TimelineEventKind.StoredEnergyRechecked,
                TimelineEventKind.IsolationVerified,
            ],
            [EventMember.Exception] = [TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved],
            [EventMember.AtLockPoint] = [TimelineEventKind.TagApplied],
            [EventMember.ExtraMeasure] = [TimelineEventKind.TagApplied],
            [EventMember.Claim] = [TimelineEventKind.ExemptionClaimed],
            [EventMember.Measures] =
            [
                TimelineEventKind.AlternativeMeasuresRecorded,
                TimelineEventKind.EnergisedTaskPerformed,
                TimelineEventKind.BlockageClearedWithTool,
            ],
            [EventMember.Count] = [TimelineEventKind.PrimaryAssigned],
            [EventMember.Others] =
            [
                TimelineEventKind.AffectedNotifiedBefore,
                TimelineEventKind.EnergyReviewed,
                TimelineEventKind.GlovesWorn,
                TimelineEventKind.IsolationVerified,
                TimelineEventKind.AlternativeMeasuresRecorded,
                TimelineEventKind.AreaInspected,
                TimelineEventKind.PeopleClearChecked,
                TimelineEventKind.ExposureChecked,
                TimelineEventKind.RemovalNotified,
                TimelineEventKind.HandedBack,
                TimelineEventKind.PrimaryAssigned,
                TimelineEventKind.CoordinatorAssigned,
                TimelineEventKind.ContractorProceduresExchanged,
                TimelineEventKind.HandoverBriefed,
                TimelineEventKind.AbsenceConfirmed,
                TimelineEventKind.ContactAttempted,
                TimelineEventKind.OwnerInformed,
            ],
            [EventMember.Crews] = [TimelineEventKind.CoordinatorAssigned],
            [EventMember.Task] =
            [
                TimelineEventKind.TestEnergised,
                TimelineEventKind.EnergisedTaskPerformed,
                TimelineEventKind.MachineStarted,
                TimelineEventKind.AlternativeMeasuresRecorded,
            ],
            [EventMember.Procedure] = [TimelineEventKind.EnergyReviewed],
        }.ToFrozenDictionary();

    /// <summary>Whether an event of this kind may say this: what it cannot mean is no part of it.</summary>
    public static bool MayHave(TimelineEventKind kind, EventMember member) => Kinds[member].Contains(kind);

    /// <summary>Whether an event of this kind must name its energy source.</summary>
    public static bool NeedsSource(TimelineEventKind kind) => SourceNeeded.Contains(kind);

    /// <summary>Whether an event of this kind must name its lock or tag.</summary>
    public static bool NeedsLock(TimelineEventKind kind) => LockNeeded.Contains(kind);

    /// <summary>Whether an event of this kind must say what is claimed.</summary>
    public static bool NeedsClaim(TimelineEventKind kind) => kind == TimelineEventKind.ExemptionClaimed;
}
