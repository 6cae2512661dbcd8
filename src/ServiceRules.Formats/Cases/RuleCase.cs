using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Formats.Cases;

/// <summary>A promise about a rule: on this fixture, changed so, it comes out so.</summary>
public sealed record RuleCase
{
    /// <summary>Identity text of the rule.</summary>
    public required string Rule { get; init; }

    /// <summary>What the case shows, in plain words.</summary>
    public required string Name { get; init; }

    public required Verdict Expect { get; init; }

    /// <summary>What the verdict does to its subject; absent: the case promises nothing about it.</summary>
    public Effect? Effect { get; init; }

    /// <summary>Whose verdict; absent: the job, the set, or the first unit of the record, as the rule's scope is.</summary>
    public Subject? Subject { get; init; }

    /// <summary>Name of the fixture that it starts from.</summary>
    public required string From { get; init; }

    /// <summary>What is changed in the fixture's record.</summary>
    public ImmutableArray<PatchStep> Patch { get; init; } = [];

    /// <summary>What is changed in the fixture's context.</summary>
    public ImmutableArray<PatchStep> Context { get; init; } = [];
}
