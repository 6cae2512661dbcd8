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
}
