using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>
/// What another record shows that bears on a job: at the same machine while the job went on, a safety defect of that machine
/// left open, or somebody shown there who was certified absent.
/// </summary>
/// <param name="Record">Which record.</param>
/// <param name="Machine">Of which machine.</param>
/// <param name="SignOff">Who signed it off, and when; absent: it is open.</param>
/// <param name="Timeline">Those of its entries that bear on the job, in its own order, each event once.</param>
public sealed record OtherRecord(
    Id<ServiceRecord> Record,
    Id<MachineVisit> Machine,
    SignOff? SignOff,
    ImmutableArray<TimelineEvent> Timeline
)
{
    /// <summary>Where it says that the work was done.</summary>
    public WorkPlace Place { get; init; } = WorkPlace.OnMachine;

    /// <summary>What its bench log alone tells of hands at a unit, or of a reel lapped, with the time and by whom.</summary>
    public ImmutableArray<BenchTold> Bench { get; init; } = [];
}
