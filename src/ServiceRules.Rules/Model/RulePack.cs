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

    /// <summary>First day on which the text of a jurisdiction pack is in force as it is cited; null: since ever.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Last day on which it is in force as it is cited; null: until further notice.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Whether the text is in force on a day. Rules of a pack carry days of their own.</summary>
    /// <param name="day">The day.</param>
    public bool IsInForceOn(DateOnly day) =>
        day >= (From ?? DateOnly.MinValue) && day <= (Until ?? DateOnly.MaxValue);
}
