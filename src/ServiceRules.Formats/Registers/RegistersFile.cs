using System.Collections.Immutable;
using ServiceRules.Domain.Site;

namespace ServiceRules.Formats.Registers;

/// <summary>A site's people, locks, waivers, instruments and machines: `registers.json`.</summary>
public sealed record RegistersFile(
    ImmutableArray<RegisteredPerson> People,
    ImmutableArray<RegisteredLock> Locks,
    ImmutableArray<Waiver> Waivers,
    ImmutableArray<RegisteredInstrument> Instruments
)
{
    /// <summary>The machines, with every source they have.</summary>
    public ImmutableArray<RegisteredMachine> Machines { get; init; } = [];

    /// <summary>When people were on the site.</summary>
    public ImmutableArray<Attendance> Attendance { get; init; } = [];

    /// <summary>Locks and people at machines whose records stand elsewhere.</summary>
    public ImmutableArray<Elsewhere> Elsewhere { get; init; } = [];
}
