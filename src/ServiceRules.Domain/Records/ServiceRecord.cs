using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Records;

/// <summary>
/// One visit to one machine, or to units on the bench: one timeline, people and instruments once, and one or more
/// units with what was read and turned. A record says what was written down; what follows from it is an assessment.
/// </summary>
public sealed record ServiceRecord
{
    /// <summary>Identity; the same identity with other content is a conflict.</summary>
    public required Id<ServiceRecord> Id { get; init; }

    /// <summary>The day of the job in the site's zone: what was in force that day judges it.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>The machine that the units belong to, or that they came off.</summary>
    public required MachineVisit Machine { get; init; }

    /// <summary>Where the units were worked on.</summary>
    public WorkPlace Place { get; init; } = WorkPlace.OnMachine;

    /// <summary>Whether the machine was in the workshop or in use.</summary>
    public WorkSetting Setting { get; init; } = WorkSetting.Workshop;

    /// <summary>Whether hands went into the reach of the blades; absent: they did.</summary>
    public bool? HandsInBladeZone { get; init; }

    /// <summary>Work on electrical parts belonged to the job: battery pack, motor controller, charger wiring.</summary>
    public bool ElectricalWork { get; init; }

    /// <summary>Where the electrical work is recorded.</summary>
    public string? ElectricalRecord { get; init; }

    /// <summary>
    /// Temperature of the workshop, where somebody noted it; absent: nothing is claimed of what temperature did to lengths.
    /// </summary>
    public Temperature? Temperature { get; init; }

    /// <summary>What the visit was for; at least one. Units may state their own.</summary>
    public required ImmutableArray<ServiceTask> Tasks { get; init; }

    /// <summary>Everybody with a part in the job; at least one.</summary>
    public required ImmutableArray<Participant> People { get; init; }

    /// <summary>Instruments used.</summary>
    public ImmutableArray<Instrument> Instruments { get; init; } = [];

    /// <summary>Make-safe and work events in the order they were entered.</summary>
    public ImmutableArray<TimelineEvent> Timeline { get; init; } = [];

    /// <summary>The units; at least one.</summary>
    public required ImmutableArray<UnitWork> Units { get; init; }

    /// <summary>The operator's words, if the job answers a complaint.</summary>
    public string? Complaint { get; init; }

    /// <summary>What the customer or lead asked for on this job card.</summary>
    public ImmutableArray<RequestedSetting> Requested { get; init; } = [];

    /// <summary>Photos, by content hash.</summary>
    public ImmutableArray<Photo> Photos { get; init; } = [];

    /// <summary>The person who says the job is done. Absent: the job is open and nothing is released.</summary>
    public SignOff? SignOff { get; init; }

    /// <summary>Releases of unproven findings by a second person.</summary>
    public ImmutableArray<SecondRelease> Releases { get; init; } = [];

    /// <summary>Re-check after first use.</summary>
    public FollowUp? FollowUp { get; init; }
}
