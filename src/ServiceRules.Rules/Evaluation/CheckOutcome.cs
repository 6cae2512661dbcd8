using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What one check says of one subject, before any rule's severity or waiver is looked at.</summary>
public sealed record CheckOutcome
{
    /// <summary>The verdict.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why.</summary>
    public required FindingReason Reason { get; init; }

    /// <summary>One plain sentence.</summary>
    public required string Statement { get; init; }

    /// <summary>Numbers, worst first.</summary>
    public ImmutableArray<Comparison> Comparisons { get; init; } = [];

    /// <summary>Entries it rests on, JSON pointers.</summary>
    public ImmutableArray<string> Evidence { get; init; } = [];

    /// <summary>What to do; null when met.</summary>
    public Remedy? Remedy { get; init; }

    /// <summary>On a job that goes on: each thing that is still to be done, without when and why.</summary>
    public ImmutableArray<string> StillToDo { get; init; } = [];

    /// <summary>Why to read again, where the reason alone does not tell.</summary>
    internal string? WhyAgain { get; init; }

    /// <summary>Things to know that do not change the verdict.</summary>
    public ImmutableArray<string> Notices { get; init; } = [];
}
