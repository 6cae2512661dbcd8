using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Ledger;

/// <summary>One version of something that was filed, and what came of it.</summary>
/// <param name="Entry">Its entry.</param>
/// <param name="Person">Who answers for it; null when nobody is named, or the person was forgotten.</param>
/// <param name="Changes">What changed since the version before; null for the first, or when a content is gone.</param>
/// <param name="Content">Its bytes; null when they were erased.</param>
/// <param name="Assessments">What judging it came to, the oldest first.</param>
/// <param name="Reports">Reports that were issued on it.</param>
/// <param name="Verdicts">Findings and dispositions that are others than with the version before.</param>
public sealed record SubjectVersion(
    FiledEntry Entry,
    string? Person,
    ImmutableArray<JsonChange>? Changes,
    ReadOnlyMemory<byte>? Content,
    ImmutableArray<SubjectVersion.Judged> Assessments,
    ImmutableArray<FiledEntry> Reports,
    ImmutableArray<VerdictChange> Verdicts
)
{
    /// <summary>One assessment of the version; null when its content was erased.</summary>
    public sealed record Judged(FiledEntry Entry, Assessment? Assessment);
}
