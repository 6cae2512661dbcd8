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
);
