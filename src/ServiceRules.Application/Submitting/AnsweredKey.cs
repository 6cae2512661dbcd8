using ServiceRules.Evidence;

namespace ServiceRules.Application.Submitting;

/// <summary>What was answered to a submission with a key.</summary>
/// <param name="Key">The key.</param>
/// <param name="Fingerprint">Digest of what was submitted.</param>
/// <param name="Kind">What came of it.</param>
/// <param name="Record">Place of the record in the log.</param>
/// <param name="Assessment">Place of the assessment in the log.</param>
/// <param name="At">When it was answered.</param>
public sealed record AnsweredKey(
    SubmissionKey Key,
    ContentHash Fingerprint,
    SubmissionKind Kind,
    long Record,
    long Assessment,
    DateTimeOffset At
)
{
    /// <summary>For how long an answer is kept at least; after that it goes when others are kept.</summary>
    public static readonly TimeSpan KeptFor = TimeSpan.FromDays(30);

    /// <summary>Pseudonym of whom the submission named; null when nobody, or nobody whom the log knows.</summary>
    public string? By { get; init; }
}
