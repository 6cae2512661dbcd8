using System.Collections.Immutable;

namespace ServiceRules.Domain.Records;

/// <summary>One cutting unit in a job: who it is, and what was read and done, in order.</summary>
public sealed record UnitWork
{
    /// <summary>The frame's identity.</summary>
    public required Id<UnitWork> Id { get; init; }

    /// <summary>Identity text of the reel, so history survives a swapped part.</summary>
    public string? Reel { get; init; }

    /// <summary>Identity text of the bedknife.</summary>
    public string? Bedknife { get; init; }

    /// <summary>Place on the machine, counted 1, 2, 3 ... from the left along one row; absent on the bench.</summary>
    public int? Position { get; init; }

    /// <summary>Identity text of the limit sheet that the unit is held to.</summary>
    public required string Sheet { get; init; }

    /// <summary>What is fitted to it.</summary>
    public ImmutableArray<Attachment> Attachments { get; init; } = [];

    /// <summary>Tasks of this unit where they differ from the job's; empty: as the job.</summary>
    public ImmutableArray<ServiceTask> Tasks { get; init; } = [];

    /// <summary>
    /// Readings, adjustments, grinding and parts in the order they happened. The order of the list is the order of
    /// the work; times, where given, must not contradict it.
    /// </summary>
    public ImmutableArray<BenchEntry> Entries { get; init; } = [];
}
