using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Library;

/// <summary>Everything a site keeps besides its rules: orders, procedures, people, locks, waivers.</summary>
public sealed record SiteRegisters
{
    public required string Name { get; init; }

    public ImmutableArray<string> Jurisdictions { get; init; } = [];

    /// <summary>
    /// The site's wall clock, kept with the site and not taken from the machine: a record must read the same
    /// wherever it is judged.
    /// </summary>
    public required SiteZone Zone { get; init; }

    public ImmutableArray<SettingOrder> SettingOrders { get; init; } = [];

    public ImmutableArray<Procedure> Procedures { get; init; } = [];

    public ImmutableArray<RegisteredPerson> People { get; init; } = [];

    public ImmutableArray<RegisteredLock> Locks { get; init; } = [];

    public ImmutableArray<Waiver> Waivers { get; init; } = [];

    public ImmutableArray<RegisteredMachine> Machines { get; init; } = [];

    /// <summary>Its gauges; none: it keeps no register of them.</summary>
    public ImmutableArray<RegisteredInstrument> Instruments { get; init; } = [];

    /// <summary>How the site's locks and tags look.</summary>
    public string? LockStyle { get; init; }

    /// <summary>The site's written way to take off the device of somebody who is not there.</summary>
    public RemovalException? RemovalException { get; init; }

    public ImmutableArray<Attendance> Attendance { get; init; } = [];

    /// <summary>Locks and people at machines whose records are not among those judged.</summary>
    public ImmutableArray<Elsewhere> Elsewhere { get; init; } = [];
}
