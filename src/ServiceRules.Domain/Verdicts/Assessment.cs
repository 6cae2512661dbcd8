using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Verdicts;

/// <summary>
/// All findings and dispositions on one record, and the digests that make them reproducible: same record, packs,
/// context and semantics give the same assessment.
/// </summary>
public sealed record Assessment
{
    /// <summary>Version of the verdict semantics; changes only when a verdict can change.</summary>
    public const string SemanticsVersion = "6";

    /// <summary>The record.</summary>
    public required Id<ServiceRecord> Record { get; init; }

    /// <summary>Where the record stands.</summary>
    public required RecordState State { get; init; }

    /// <summary>Digests of what was judged by what.</summary>
    public required AssessmentDigests Digests { get; init; }

    /// <summary>The job's outcome.</summary>
    public required Outcome Job { get; init; }

    /// <summary>The outcome of the units together.</summary>
    public required Outcome Set { get; init; }

    /// <summary>Outcome of each unit, in the order of the record.</summary>
    public required ImmutableArray<UnitOutcome> Units { get; init; }

    /// <summary>Every finding, ordered by subject key and then rule identity.</summary>
    public required ImmutableArray<Finding> Findings { get; init; }
}
