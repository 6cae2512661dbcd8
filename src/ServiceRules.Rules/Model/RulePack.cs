using System.Collections.Immutable;
using ServiceRules.Domain;

namespace ServiceRules.Rules.Model;

/// <summary>A versioned set of rules of one layer.</summary>
public sealed record RulePack
{
    /// <summary>Identity.</summary>
    public required Id<RulePack> Id { get; init; }

    /// <summary>Version, for people.</summary>
    public required string Version { get; init; }

    /// <summary>Title.</summary>
    public required string Title { get; init; }

    /// <summary>Layer.</summary>
    public required PackLayer Layer { get; init; }

    /// <summary>The rules, in the order of their files.</summary>
    public required ImmutableArray<Rule> Rules { get; init; }

    /// <summary>Where its jurisdiction's texts ask what rules ask; of a jurisdiction pack only.</summary>
    public ImmutableArray<Citation> Citations { get; init; } = [];

    /// <summary>What comes before these citations, in words for readers; needed on a jurisdiction pack.</summary>
    public string? Precedence { get; init; }
}
