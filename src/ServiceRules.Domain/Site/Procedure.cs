using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>The written make-safe procedure of a machine, a pedestrian machine or a bench.</summary>
public sealed record Procedure
{
    private const int MonthsOfAYear = 12;

    /// <summary>Identity and revision, for example <c>P-ride-on-3</c>.</summary>
    public required Id<Procedure> Id { get; init; }

    /// <summary>Plain name of the kind of machine.</summary>
    public required string Title { get; init; }

    /// <summary>Machines that it covers.</summary>
    public required ImmutableArray<Id<MachineVisit>> Machines { get; init; }

    /// <summary>Whether it is for units on the machine or on the bench.</summary>
    public required WorkPlace Place { get; init; }

    /// <summary>What could move or hurt; may be empty only on the bench.</summary>
    public required ImmutableArray<EnergySource> Sources { get; init; }

    /// <summary>Whether the machine has a driver's seat or a handle, a key, lowering units, a parking brake.</summary>
    public required MachineControls Controls { get; init; }

    /// <summary>First day on which this revision is in force; absent: since always.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Last day on which it is in force; absent: until replaced.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Date of the last periodic inspection.</summary>
    public DateOnly? InspectedOn { get; init; }

    /// <summary>When the next periodic inspection is due.</summary>
    public DateOnly? InspectionDue { get; init; }

    /// <summary>The certificate of the last periodic inspection, where the register holds it.</summary>
    public ProcedureInspection? Inspection { get; init; }

    /// <summary>When it was last inspected, by the certificate or by the date alone.</summary>
    public DateOnly? LastInspected => Inspection?.On ?? InspectedOn;

    /// <summary>
    /// Until when the last inspection holds where one is asked for at least once a year: calendar months, whatever days they
    /// have, or less where the site says so; null: there was none.
    /// </summary>
    public DateOnly? YearlyInspectionDue =>
        LastInspected?.AddMonths(MonthsOfAYear) is not { } year ? null
        : InspectionDue is { } due && due < year ? due
        : year;

    /// <summary>This revision changed how energy is controlled: whoever uses it was trained since.</summary>
    public bool ControlStepsChanged { get; init; }

    /// <summary>What must be in place before the machine is run for a test; empty: nothing is stated.</summary>
    public ImmutableArray<ProtectiveMeasure> TestMeasures { get; init; } = [];

    /// <summary>
    /// Tools that keep hands out of a blocked reel, as an entry may name them; empty: the procedure names none.
    /// </summary>
    public ImmutableArray<string> BlockageTools { get; init; } = [];

    /// <summary>
    /// How many seconds everything that turns takes to come to rest once the machine is stopped, at the least; absent: not
    /// stated.
    /// </summary>
    public int? RunDownSeconds { get; init; }

    /// <summary>Tasks that are approved on the live machine.</summary>
    public ImmutableArray<EnergisedTask> EnergisedTasks { get; init; } = [];
}
