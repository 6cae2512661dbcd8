using System.Collections.Immutable;
using ServiceRules.Domain.Site;

namespace ServiceRules.Formats.Registers;

/// <summary>A site's people, locks, waivers and instruments: `registers.json`.</summary>
public sealed record RegistersFile(
    ImmutableArray<RegisteredPerson> People,
    ImmutableArray<RegisteredLock> Locks,
    ImmutableArray<Waiver> Waivers,
    ImmutableArray<RegisteredInstrument> Instruments
);
