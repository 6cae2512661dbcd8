using System.Collections.Immutable;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>What the cases exercise of a folder of rules.</summary>
/// <param name="Parts">Everything that they should, by file and place.</param>
/// <param name="Idle">
/// Limits of sheets that no rule in force holds anything against; none of their sides is asked for.
/// </param>
public sealed record RuleCoverage(ImmutableArray<CoveragePart> Parts, ImmutableArray<CoveragePart> Idle)
{
    /// <summary>What no case exercises.</summary>
    public ImmutableArray<CoveragePart> Missing => [.. Parts.Where(part => part.Cases == 0)];

    /// <summary>Whether nothing is missing.</summary>
    public bool IsFull => Parts.All(part => part.Cases > 0);
}
