using System.Collections.Immutable;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>A pack with where it and each of its rules stand.</summary>
/// <param name="Pack">The pack; its rules are those of <paramref name="Rules"/>.</param>
/// <param name="File">The file of its head.</param>
/// <param name="Rules">Its rules, in the order of their files.</param>
public sealed record PlacedPack(RulePack Pack, string File, ImmutableArray<Placed<Rule>> Rules)
{
    /// <summary>Its citations, in the order of their files.</summary>
    public ImmutableArray<Placed<Citation>> Citations { get; init; } = [];
}
