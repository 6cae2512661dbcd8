using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Layering;

/// <summary>What one jurisdiction cites for a rule; never of two jurisdictions.</summary>
/// <param name="Pack">The jurisdiction pack.</param>
/// <param name="Title">Its title.</param>
/// <param name="Precedence">What comes before these citations.</param>
/// <param name="Citations">The citations, in the order of their files; at least one.</param>
public sealed record CitedText(
    Id<RulePack> Pack,
    string Title,
    string? Precedence,
    ImmutableArray<Citation> Citations
);
