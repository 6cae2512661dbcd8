using ServiceRules.Application.Submitting;

namespace ServiceRules.Host.Filing;

/// <summary>That a record stands, and what judging it came to.</summary>
/// <param name="Id">The record.</param>
/// <param name="IsNew">Whether it was added; else the same stood already.</param>
/// <param name="Disposition">Whether the job may go out; left out where its assessment is no longer kept.</param>
/// <param name="Record">Where the record stands.</param>
/// <param name="Judged">Where the assessment stands.</param>
/// <param name="Others">What of other stored records was taken into account; left out where that is no longer kept.</param>
/// <param name="AlsoTurned">Stored records that are judged otherwise now, in the light of this one.</param>
/// <param name="Assessment">The assessment; left out where it is no longer kept.</param>
internal sealed record SubmissionAnswer(
    string Id,
    bool IsNew,
    string? Disposition,
    ToldEntry Record,
    ToldEntry Judged,
    ToldOthers? Others,
    IReadOnlyList<ToldTurn> AlsoTurned,
    EmbeddedAssessment? Assessment
)
{
    public static SubmissionAnswer Of(StoredSubmission stored, bool isNew) =>
        new(
            stored.Record.Entry.Subject,
            isNew,
            stored.AssessmentBytes is { } bytes ? ToldAssessment.Of(bytes).Disposition : null,
            ToldEntry.Of(stored.Record),
            ToldEntry.Of(stored.Assessment),
            stored.Others is { } others ? ToldOthers.Of(others) : null,
            [.. stored.Turned.Select(ToldTurn.Of)],
            stored.AssessmentBytes is { } kept ? new EmbeddedAssessment(kept) : null
        );
}
