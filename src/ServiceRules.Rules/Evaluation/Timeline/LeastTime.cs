using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// The least time that somebody quick needs for a step, from the end of the one before it. Common practice, no source: what
/// is done from the seat takes a second, to see everything at rest two; to turn an isolator off, hang a lock, bleed a circuit, prove a source dead or
/// look round the machine takes hands elsewhere. To tell somebody, or to name a lead, is not judged by time.
/// </summary>
internal static class LeastTime
{
    private static readonly TimeSpan OnTheSeat = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan AtOnePlace = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan ProofOfEverything = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan RoundTheMachine = TimeSpan.FromSeconds(15);

    /// <summary>
    /// From a safety defect found until it is put right: the quickest is a guard that is pushed home. Entered once it is done, it is no step
    /// from the end of the one before.
    /// </summary>
    public static TimeSpan ToPutRight => RoundTheMachine;

    /// <summary>The least time for a step; none for what is no step at the machine.</summary>
    public static TimeSpan Of(TimelineEvent entry) =>
        entry.Kind switch
        {
            TimelineEventKind.DriveDisengaged
            or TimelineEventKind.UnitsLowered
            or TimelineEventKind.ParkingBrakeSet
            or TimelineEventKind.MachineShutDown
            or TimelineEventKind.KeyRemoved => OnTheSeat,
            TimelineEventKind.SeenAtRest => Look,
            TimelineEventKind.IsolationVerified when entry.Source is SourceReference.All => ProofOfEverything,
            TimelineEventKind.UnitSupported
            or TimelineEventKind.AreaInspected
            or TimelineEventKind.GuardsRefitted
            or TimelineEventKind.CutOutsProved => RoundTheMachine,
            TimelineEventKind.IsolatorOperated
            or TimelineEventKind.PlugRemoved
            or TimelineEventKind.LockApplied
            or TimelineEventKind.TagApplied
            or TimelineEventKind.LockRemoved
            or TimelineEventKind.TagRemoved
            or TimelineEventKind.StoredEnergyReleased
            or TimelineEventKind.StoredEnergyRechecked
            or TimelineEventKind.ReelWedged
            or TimelineEventKind.IsolationVerified
            or TimelineEventKind.PeopleClearChecked
            or TimelineEventKind.BlockageClearedWithTool
            or TimelineEventKind.BlockageClearedByHand => AtOnePlace,
            _ => TimeSpan.Zero,
        };
}
