using ServiceRules.Application.Importing;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Inbox;

/// <summary>What came of one record of a table.</summary>
/// <param name="Id">The record; left out where its rows say no identity.</param>
/// <param name="Row">Its first row.</param>
/// <param name="Stands">Whether it stands now.</param>
/// <param name="IsNew">Whether it was added; left out where it does not stand.</param>
/// <param name="Disposition">Whether the job may go out.</param>
/// <param name="Entry">Where it stands in the log.</param>
/// <param name="Problem">Why it may not be filed, as over HTTP.</param>
/// <param name="Rows">What is wrong with its rows.</param>
internal sealed record ToldImport(
    string? Id,
    int Row,
    bool Stands,
    bool? IsNew,
    string? Disposition,
    ToldEntry? Entry,
    ProblemDocument? Problem,
    IReadOnlyList<ToldRow>? Rows
)
{
    public static ToldImport Of(ImportedRecord one)
    {
        var stored = one.Stored;
        return new(
            stored?.Record.Entry.Subject ?? one.Record.Id,
            one.Record.FirstRow,
            stored is not null,
            stored is null ? null : !one.Stood,
            stored?.AssessmentBytes is { } bytes ? ToldAssessment.Of(bytes).Disposition : null,
            stored is null ? null : ToldEntry.Of(stored.Record),
            one.Outcome switch
            {
                SubmissionOutcome.Conflict conflict => Complaint.Document(conflict.Refusal),
                SubmissionOutcome.Declined declined => Complaint.Document(declined.Refusal),
                _ => null,
            },
            ToldRow.All(one.Problems)
        );
    }
}
