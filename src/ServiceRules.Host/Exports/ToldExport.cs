using ServiceRules.Application.Exporting;

namespace ServiceRules.Host.Exports;

/// <summary>How far an export is.</summary>
/// <param name="Id">Its name.</param>
/// <param name="State">queued, running, done or failed.</param>
/// <param name="Rows">Rows that are written.</param>
/// <param name="Bytes">Bytes that are written.</param>
/// <param name="AskedAt">When it was asked for.</param>
/// <param name="Expires">When it is removed.</param>
/// <param name="File">Where the file is, once it is whole.</param>
/// <param name="Failure">Why there will be no file.</param>
internal sealed record ToldExport(
    string Id,
    string State,
    long Rows,
    long Bytes,
    DateTimeOffset AskedAt,
    DateTimeOffset Expires,
    string? File,
    string? Failure
)
{
    public static ToldExport Of(ExportJob job) =>
        new(
            job.Id,
            job.State switch
            {
                ExportState.Queued => "queued",
                ExportState.Running => "running",
                ExportState.Done => "done",
                _ => "failed",
            },
            job.Rows,
            job.Bytes,
            job.AskedAt,
            job.ExpiresAt,
            job.State is ExportState.Done ? $"{ExportJobsApi.Place}/{job.Id}/file" : null,
            job.Failure
        );
}
