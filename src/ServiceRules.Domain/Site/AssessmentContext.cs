using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>
/// The frozen slice of the site's registers that an assessment needs. With the record, the packs and the version of
/// the verdict semantics it fixes the assessment to the byte; it is stored, hashed and attached with them.
/// </summary>
public sealed record AssessmentContext
{
    /// <summary>Which site.</summary>
    public required string Site { get; init; }

    /// <summary>Jurisdiction texts in force at the site, by pack identity; may be empty.</summary>
    public ImmutableArray<string> Jurisdictions { get; init; } = [];

    /// <summary>The site's time zone, frozen with the version of the zone data.</summary>
    public required SiteZone Zone { get; init; }

    /// <summary>Setting orders in force on the day of the record.</summary>
    public ImmutableArray<SettingOrder> SettingOrders { get; init; } = [];

    /// <summary>Written procedures of the machines and benches concerned.</summary>
    public ImmutableArray<Procedure> Procedures { get; init; } = [];

    /// <summary>People as the register knows them.</summary>
    public ImmutableArray<RegisteredPerson> People { get; init; } = [];

    /// <summary>Locks and tags as issued.</summary>
    public ImmutableArray<RegisteredLock> Locks { get; init; } = [];

    /// <summary>Waivers in force on the day of the record.</summary>
    public ImmutableArray<Waiver> Waivers { get; init; } = [];

    /// <summary>The machine as the register has it; empty: the site keeps no register of machines, or not of this one.</summary>
    public ImmutableArray<RegisteredMachine> Machines { get; init; } = [];

    /// <summary>
    /// The gauges of the record as the site's register has them; absent: the site keeps no register of gauges, or the record names none.
    /// </summary>
    public ImmutableArray<RegisteredInstrument>? Instruments { get; init; }

    /// <summary>How the site's locks and tags look; absent: not stated.</summary>
    public string? LockStyle { get; init; }

    /// <summary>The site's written way to take off the device of somebody who is not there; absent: it has none.</summary>
    public RemovalException? RemovalException { get; init; }

    /// <summary>When the people of the job were on the site; of whom nothing is stated, nothing is known.</summary>
    public ImmutableArray<Attendance> Attendance { get; init; } = [];

    /// <summary>Locks and people of the job that other records show at other machines.</summary>
    public ImmutableArray<Elsewhere> Elsewhere { get; init; } = [];

    /// <summary>What other records show that bears on the job.</summary>
    public ImmutableArray<OtherRecord> OtherRecords { get; init; } = [];

    /// <summary>
    /// By name, the parts in which a context that was handed in with a record is other than the site's registers of that day; empty:
    /// in none, or it is the site's own.
    /// </summary>
    public ImmutableArray<string> OtherThanTheSites { get; init; } = [];
}
