using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Comparing;

/// <summary>One record judged by both folders.</summary>
public sealed record RecordCompared
{
    /// <summary>The file.</summary>
    public required string File { get; init; }

    /// <summary>The record.</summary>
    public required ServiceRecord Record { get; init; }

    /// <summary>
    /// By the old rules; null: they have no limit sheet for one of its units, or nothing that changed reaches this record.
    /// </summary>
    public required Assessment? Was { get; init; }

    /// <summary>By the new rules; null likewise.</summary>
    public required Assessment? WouldBe { get; init; }

    /// <summary>Limit sheets that one of the two lacks; then nothing is compared.</summary>
    public ImmutableArray<string> MissingSheets { get; init; } = [];

    /// <summary>What would come out otherwise, by subject and rule.</summary>
    public ImmutableArray<Flip> Flips { get; init; } = [];

    /// <summary>Whether anything would come out otherwise.</summary>
    public bool HasChanged =>
        !Flips.IsEmpty || Was is null != WouldBe is null || Was?.Job.Disposition != WouldBe?.Job.Disposition;
}
