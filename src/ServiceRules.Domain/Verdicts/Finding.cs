using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Domain.Verdicts;

/// <summary>One rule's outcome on one unit, on the set of units, or on the job, with its evidence.</summary>
public sealed record Finding
{
    /// <summary>Identity text of the rule.</summary>
    public required string Rule { get; init; }

    /// <summary>What it speaks of.</summary>
    public required Subject Subject { get; init; }

    /// <summary>The outcome.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>How serious a breach is.</summary>
    public required Severity Severity { get; init; }

    /// <summary>What this finding does to the disposition of its subject.</summary>
    public required Effect Effect { get; init; }

    /// <summary>Why, in one closed word; <see cref="FindingReason.None"/> for a plain met.</summary>
    public required FindingReason Reason { get; init; }

    /// <summary>One plain sentence: what, how much.</summary>
    public required string Statement { get; init; }

    /// <summary>The numbers behind it, worst first.</summary>
    public ImmutableArray<Comparison> Comparisons { get; init; } = [];

    /// <summary>The entries of the record it rests on, as JSON pointers, ordinal order.</summary>
    public ImmutableArray<string> Evidence { get; init; } = [];

    /// <summary>What to do about it; absent when met.</summary>
    public Remedy? Remedy { get; init; }

    /// <summary>On a job that goes on: each thing that is still to be done, without when and why.</summary>
    public ImmutableArray<string> StillToDo { get; init; } = [];

    /// <summary>Waiver or second-person release that this finding was let out under, in plain words.</summary>
    public string? LetOut { get; init; }

    /// <summary>Things to know that do not change the verdict, such as dual prints that part here.</summary>
    public ImmutableArray<string> Notices { get; init; } = [];
}
