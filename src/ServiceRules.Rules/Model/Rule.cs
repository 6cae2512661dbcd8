using ServiceRules.Domain;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Model;

/// <summary>One declared requirement: to whom it applies, what is checked, and what follows.</summary>
public sealed record Rule
{
    /// <summary>Identity, kebab-case, stable for ever.</summary>
    public required Id<Rule> Id { get; init; }

    /// <summary>Short title.</summary>
    public required string Title { get; init; }

    /// <summary>The requirement in plain words.</summary>
    public required string Requirement { get; init; }

    /// <summary>When it applies; every part present must hold.</summary>
    public Applicability When { get; init; } = Applicability.Always;

    /// <summary>On what it is judged.</summary>
    public required RuleScope Scope { get; init; }

    /// <summary>The check.</summary>
    public required Check Check { get; init; }

    /// <summary>How a measured value is decided against a limit; absent where nothing is measured.</summary>
    public RuleDecision Decision { get; init; } = RuleDecision.Guarded;

    /// <summary>How serious a breach is.</summary>
    public required Severity Severity { get; init; }

    /// <summary>What it does when it cannot be decided.</summary>
    public UnprovenPolicy Unproven { get; init; } = UnprovenPolicy.Hold;

    /// <summary>What it rests on.</summary>
    public required Basis Basis { get; init; }

    /// <summary>What to do, in plain words, when it is not met or unproven.</summary>
    public required string Advice { get; init; }
}
