using System.Collections.Frozen;
using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// What in a record of work on the bench only a machine in one piece can give. Where the bench procedure names an isolating
/// device, as that of a grinder does, its steps are its own and contradict nothing.
/// </summary>
public static class PlaceContradicted
{
    private static readonly FrozenSet<TimelineEventKind> OfAMachine = new[]
    {
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.ParkingBrakeSet,
        TimelineEventKind.MachineShutDown,
        TimelineEventKind.KeyRemoved,
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.TestEnded,
        TimelineEventKind.EnergisedTaskPerformed,
        TimelineEventKind.MachineStarted,
        TimelineEventKind.CutOutsProved,
    }.ToFrozenSet();

    private static readonly FrozenSet<TimelineEventKind> OfAnIsolator = new[]
    {
        TimelineEventKind.IsolatorOperated,
        TimelineEventKind.PlugRemoved,
        TimelineEventKind.PlugControlConfirmed,
        TimelineEventKind.LockApplied,
        TimelineEventKind.TagApplied,
    }.ToFrozenSet();

    private static readonly FrozenSet<TimelineEventKind> OfASource = new[]
    {
        TimelineEventKind.StoredEnergyReleased,
        TimelineEventKind.StoredEnergyRechecked,
        TimelineEventKind.IsolationVerified,
    }.ToFrozenSet();

    /// <summary>Indexes into the record's timeline of the entries that contradict its place; empty: none does.</summary>
    /// <param name="record">The record.</param>
    /// <param name="procedures">The register of procedures, or the frozen slice of it.</param>
    /// <param name="began">The day on which the job began.</param>
    public static ImmutableArray<int> By(
        ServiceRecord record,
        IEnumerable<Procedure> procedures,
        DateOnly began
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(procedures);
        if (record.Place != WorkPlace.OnBench)
        {
            return [];
        }

        var bench = ProcedureInUse.Of(record, procedures, began)?.Procedure;
        var ofMachine = procedures
            .Where(one => one.Place == WorkPlace.OnMachine && one.Machines.Contains(record.Machine.Id))
            .ToImmutableArray();
        // What came to the bench during the job is not the machine's, and is switched off where it came to.
        var came = record
            .Timeline.Where(entry => entry.Kind == TimelineEventKind.SourceAdded)
            .Select(entry => entry.Source)
            .OfType<SourceReference.One>()
            .Select(one => one.Source)
            .Where(id => !ofMachine.Any(one => one.Sources.Any(source => source.Id == id)))
            .ToFrozenSet();
        return bench is not null && bench.Sources.Any(source => source.Isolator is not null)
            ? []
            :
            [
                .. Enumerable
                    .Range(0, record.Timeline.Length)
                    .Where(index =>
                        !IsOf(came, record.Timeline[index]) && Contradicts(record.Timeline[index], bench)
                    ),
            ];
    }

    /// <summary>
    /// Indexes of the units of a job on the bench that have a place on its machine: one that is off it has none. A bench of its own, of
    /// which no procedure on a machine is registered, has no places.
    /// </summary>
    /// <param name="record">The record.</param>
    /// <param name="procedures">The register of procedures, or the frozen slice of it.</param>
    /// <param name="began">The day on which the job began.</param>
    public static ImmutableArray<int> UnitsInPlace(
        ServiceRecord record,
        IEnumerable<Procedure> procedures,
        DateOnly began
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(procedures);
        var all = procedures.ToImmutableArray();
        return IsUnitOfAMachine(record, all, began)
            ?
            [
                .. Enumerable
                    .Range(0, record.Units.Length)
                    .Where(index => record.Units[index].Position is not null),
            ]
            : [];
    }

    /// <summary>
    /// Members of a job on the bench that only a machine in one piece has: used on turf meanwhile, or worked on at its battery, motor
    /// controller or charger wiring. Hours and how it mowed may have been noted before the unit came off. A bench of its own has no machine.
    /// </summary>
    /// <param name="record">The record.</param>
    /// <param name="procedures">The register of procedures, or the frozen slice of it.</param>
    /// <param name="began">The day on which the job began.</param>
    /// <returns>JSON pointers.</returns>
    public static ImmutableArray<string> PartsOfAMachine(
        ServiceRecord record,
        IEnumerable<Procedure> procedures,
        DateOnly began
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(procedures);
        return IsUnitOfAMachine(record, [.. procedures], began)
            ?
            [
                .. record.ElectricalWork ? new[] { "/electricalWork" } : [],
                .. record.Setting == WorkSetting.InUse ? new[] { "/setting" } : [],
            ]
            : [];
    }

    private static bool IsUnitOfAMachine(
        ServiceRecord record,
        ImmutableArray<Procedure> procedures,
        DateOnly began
    ) =>
        record.Place == WorkPlace.OnBench
        && procedures.Any(one => one.Place == WorkPlace.OnMachine && one.Machines.Contains(record.Machine.Id))
        && ProcedureInUse
            .Of(record, procedures, began)
            ?.Procedure.Sources.Any(source => source.Isolator is not null) != true;

    /// <summary>Whether a record of work on the bench is of a bench where nothing can be switched on, and no entry contradicts that.</summary>
    internal static bool IsOffTheMachine(ServiceRecord record, JobFrame frame) =>
        record.Place == WorkPlace.OnBench
        && ProcedureInUse
            .Of(record, frame.Context.Procedures, frame.Days.Began)
            ?.Procedure.Sources.Any(source => source.Isolator is not null) != true
        && By(record, frame.Context.Procedures, frame.Days.Began).IsEmpty
        && UnitsInPlace(record, frame.Context.Procedures, frame.Days.Began).IsEmpty
        && PartsOfAMachine(record, frame.Context.Procedures, frame.Days.Began).IsEmpty;

    private static bool IsOf(FrozenSet<Id<EnergySource>> came, TimelineEvent entry) =>
        entry.Source is SourceReference.One one
        && came.Contains(one.Source)
        && (OfAnIsolator.Contains(entry.Kind) || OfASource.Contains(entry.Kind));

    // What is let go of or proven dead of a source that the bench does not have is the machine's. A unit is handed back too.
    private static bool Contradicts(TimelineEvent entry, Procedure? bench) =>
        OfAMachine.Contains(entry.Kind)
        || (
            bench is not null
            && OfASource.Contains(entry.Kind)
            && entry.Source is SourceReference.One one
            && !bench.Sources.Any(source => source.Id == one.Source)
        );
}
