using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>A record that stands in the log with its assessment.</summary>
/// <param name="Record">The record's entry.</param>
/// <param name="Assessment">The assessment's entry.</param>
/// <param name="AssessmentBytes">The assessment; null when it was erased since.</param>
/// <param name="IsReplay">Whether the same was answered before, to the same key.</param>
public sealed record StoredSubmission(
    FiledEntry Record,
    FiledEntry Assessment,
    ReadOnlyMemory<byte>? AssessmentBytes,
    bool IsReplay
)
{
    /// <summary>Stored records that are judged otherwise in the light of this one, in the order in which they were filed.</summary>
    public ImmutableArray<TurnedRecord> Turned { get; init; } = [];

    /// <summary>What of other stored records its assessment took into account; null where that is no longer kept.</summary>
    public AssessmentOthers? Others { get; init; }
}
