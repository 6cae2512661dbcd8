using ServiceRules.Domain.Verdicts;
using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Filing;

/// <summary>That a record stands, and what judging it came to.</summary>
/// <param name="Id">The record.</param>
/// <param name="IsNew">Whether anything was added just now; else all of it stood already.</param>
/// <param name="Disposition">Whether the job may go out.</param>
/// <param name="Record">Where the record stands.</param>
/// <param name="Judged">Where the assessment stands.</param>
/// <param name="LogSize">Entries of the log under the checkpoint that covers both.</param>
/// <param name="Assessment">The assessment.</param>
internal sealed record SubmissionAnswer(
    string Id,
    bool IsNew,
    Disposition Disposition,
    ToldEntry Record,
    ToldEntry Judged,
    long LogSize,
    [property: Published("assessment")] EmbeddedJson Assessment
)
{
    public static SubmissionAnswer Of(Submission.Stands stands)
    {
        var (record, judged) = Application.Ledger.FileRecord.Parts(stands.Filed);
        return new(
            stands.Assessed.Record.Id.Text,
            stands.Filed.IsNew,
            stands.Assessed.Assessment.Job.Disposition,
            ToldEntry.Of(record),
            ToldEntry.Of(judged),
            stands.Filed.Head.Size,
            new EmbeddedJson(stands.Assessed.Evidence.Assessment.Bytes)
        );
    }
}
