using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>What is asked of <see cref="MatchSolver"/>.</summary>
public sealed record MatchTask
{
    /// <summary>The most units that a machine carries.</summary>
    public const int MostUnits = 32;

    /// <summary>The units in the order in which they stand, from the left.</summary>
    public required ImmutableArray<MatchUnit> Units { get; init; }

    /// <summary>Within what the mid-width heights of the set must lie; none: no such limit.</summary>
    public Length? Together { get; init; }

    /// <summary>
    /// For each unit but the last, the largest step from its right end to the left end of the next; none where they do
    /// not meet. Empty: no unit meets another.
    /// </summary>
    public ImmutableArray<Length?> Steps { get; init; } = [];
}
