using System.Collections.Immutable;
using ServiceRules.Rules.Layering;

namespace ServiceRules.Application.Explaining;

/// <summary>One rule on one record: where it comes from, what it applies to and why, and what came of it.</summary>
public sealed record ExplainedRule
{
    /// <summary>The statement in force; where none is, the one of the highest layer.</summary>
    public required StandingRule Standing { get; init; }

    /// <summary>Whether the rule is in force; if not, its pack is of a jurisdiction that the site does not name.</summary>
    public required bool IsInForce { get; init; }

    /// <summary>Statements of the layers below whose place it takes, from the top down.</summary>
    public required ImmutableArray<ReplacedRule> Replaces { get; init; }

    /// <summary>Every subject of its scope.</summary>
    public required ImmutableArray<ExplainedSubject> Subjects { get; init; }

    /// <summary>The waivers that name it.</summary>
    public required ImmutableArray<WaiverSeen> Waivers { get; init; }

    /// <summary>What a jurisdiction in force cites for it, or null.</summary>
    public required CitedText? Cites { get; init; }
}
