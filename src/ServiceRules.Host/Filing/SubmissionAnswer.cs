using ServiceRules.Application.Submitting;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Filing;

/// <summary>That a record stands, and what judging it came to.</summary>
/// <param name="Id">The record.</param>
/// <param name="IsNew">Whether it was added; else the same stood already.</param>
/// <param name="Disposition">Whether the job may go out; left out where its assessment is no longer kept.</param>
/// <param name="Record">Where the record stands.</param>
/// <param name="Judged">Where the assessment stands.</param>
/// <param name="Others">What of other stored records was taken into account; left out where that is no longer kept.</param>
/// <param name="Withheld">Of how many findings it is kept back what they say, since it rests on records that whoever asks may not see; left out where of none.</param>
/// <param name="AlsoTurned">Stored records that are judged otherwise now, in the light of this one.</param>
/// <param name="AlsoTurnedHidden">How many more of them there are that whoever asks may not see; left out where there is none.</param>
/// <param name="Assessment">The assessment; left out where it is no longer kept.</param>
internal sealed record SubmissionAnswer(
    string Id,
    bool IsNew,
    string? Disposition,
    ToldEntry Record,
    ToldEntry Judged,
    ToldOthers? Others,
    int? Withheld,
    IReadOnlyList<ToldTurn> AlsoTurned,
    int? AlsoTurnedHidden,
    EmbeddedAssessment? Assessment
)
{
    /// <param name="stored">What stands.</param>
    /// <param name="isNew">Whether it was added.</param>
    /// <param name="seen">What of other records is told to whoever asks; null: everything.</param>
    public static SubmissionAnswer Of(StoredSubmission stored, bool isNew, SeenOthers? seen = null)
    {
        var told =
            seen?.Of(stored.Assessment) ?? new AssessmentAsSeen(stored.AssessmentBytes, stored.Others, 0, 0);
        var turned = stored.Turned.Select(ToldTurn.Of).ToList();
        var shown = seen is null ? turned : [.. turned.Where(turn => seen.Sees(turn.Id)).Select(seen.Of)];
        var judged = ToldEntry.Of(stored.Assessment);
        return new(
            stored.Record.Entry.Subject,
            isNew,
            stored.AssessmentBytes is { } bytes ? ToldAssessment.Of(bytes).Disposition : null,
            ToldEntry.Of(stored.Record),
            seen?.Of(judged) ?? judged,
            told.Others is { } others ? ToldOthers.Of(others, told.HiddenOthers) : null,
            told.Withheld == 0 ? null : told.Withheld,
            shown,
            turned.Count == shown.Count ? null : turned.Count - shown.Count,
            told.Bytes is { } kept ? new EmbeddedAssessment(kept) : null
        );
    }
}
