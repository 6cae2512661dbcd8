using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>A machine in the site's register, with every source of energy it has: its procedure must cover them all.</summary>
/// <param name="Id">The machine, as records name it.</param>
/// <param name="Title">Plain name.</param>
/// <param name="Sources">What could move or hurt.</param>
public sealed record RegisteredMachine(
    Id<MachineVisit> Id,
    string Title,
    ImmutableArray<EnergySource> Sources
)
{
    /// <summary>The areas that it mows, as setting orders name them; empty: not stated.</summary>
    public ImmutableArray<string> Areas { get; init; } = [];

    /// <summary>How many cutting units it has; absent: not stated.</summary>
    public int? Units { get; init; }
}
