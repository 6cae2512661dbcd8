using ServiceRules.Application.Rows;

namespace ServiceRules.Host.Filing;

/// <summary>A record in a list: one version of it, as the newest assessment has it.</summary>
internal sealed record ToldRecord(
    string Id,
    long Entry,
    DateOnly Day,
    string? Site,
    string Machine,
    string? Area,
    IReadOnlyList<string> Tasks,
    string State,
    string? Disposition,
    bool IsAmendment,
    bool IsNewest,
    string? By,
    DateTimeOffset FiledAt,
    long? Judged,
    string Record,
    string? Assessment
)
{
    public static ToldRecord Of(RecordRow row) =>
        new(
            row.Record,
            row.Index,
            row.Day,
            row.Site,
            row.Machine,
            row.Area,
            row.Tasks,
            row.State,
            row.Disposition,
            row.IsAmendment,
            row.IsNewest,
            row.By,
            row.FiledAt,
            row.AssessmentIndex,
            row.RecordHash,
            row.AssessmentHash
        );
}
