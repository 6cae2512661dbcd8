using System.Globalization;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Pages.Filed;

namespace ServiceRules.Host.Exports;

/// <summary>A file that was asked for, as a page tells it.</summary>
/// <param name="What">Which list or report, and as what.</param>
/// <param name="Period">Of which days, and of which site.</param>
/// <param name="AskedAt">When.</param>
/// <param name="State">How far it is.</param>
/// <param name="Kept">Until when it is kept.</param>
/// <param name="File">Where it is; null: it is not whole.</param>
/// <param name="Proof">Where the proof is that it stands in the log; null: it does not.</param>
public sealed record ShownFile(
    string What,
    string Period,
    string AskedAt,
    string State,
    string Kept,
    string? File,
    string? Proof
)
{
    /// <summary>Whether it will be whole later.</summary>
    public bool IsUnderWay { get; init; }

    internal static ShownFile Of(ExportJob job, OpenLedger ledger)
    {
        var request = ExportDesk.RequestOf(job);
        var entry =
            job is { State: ExportState.Done, Digest: { } digest }
            && request is { What: ExportedList.SafeWork, Filter: { From: { } from, Until: { } until } }
                ? FilePeriodReport.Find(ledger.Log, from, until, digest)?.Index
                : null;
        return new(
            FileChoices.TextOf(request),
            PeriodOf(request.Filter),
            ShownComment.Time(job.AskedAt),
            StateOf(job, request, entry),
            ShownComment.Time(job.ExpiresAt),
            job.State is ExportState.Done ? $"{ExportJobsApi.Place}/{job.Id}/file" : null,
            entry is null ? null : $"{ExportJobsApi.Place}/{job.Id}/proof"
        )
        {
            IsUnderWay = job.State is ExportState.Queued or ExportState.Running,
        };
    }

    private static string StateOf(ExportJob job, ExportRequest request, long? entry) =>
        job.State switch
        {
            ExportState.Queued => "waits for its turn",
            ExportState.Running => "is being written",
            ExportState.Done => string.Create(
                CultureInfo.InvariantCulture,
                $"ready: {Counted(job.Rows, request.What is ExportedList.SafeWork ? "job" : "row")}, {SizeOf(job.Bytes)}{(entry is { } place ? $", entry {place} of the log" : "")}"
            ),
            _ => $"there is none: {job.Failure}",
        };

    private static string PeriodOf(ExportedRows rows)
    {
        var days = (rows.From, rows.Until) switch
        {
            ({ } from, { } until) => $"{Day(from)} until {Day(until)}",
            ({ } from, null) => $"from {Day(from)} on",
            (null, { } until) => $"until {Day(until)}",
            _ => "all days",
        };
        return rows.Site is { } site ? $"{days}, {site}" : days;
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Counted(long count, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");

    private static string SizeOf(long bytes) =>
        bytes < 10_000
            ? Counted(bytes, "byte")
            : string.Create(CultureInfo.InvariantCulture, $"{(bytes + 512) / 1024} KiB");
}
