using System.Collections.Immutable;
using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.SafeWork;
using ServiceRules.Evidence;
using ServiceRules.Formats.SafeWork;

namespace ServiceRules.Application.Reports;

/// <summary>Where the report of a period stands in a log that can be asked itself, and whether it tells the newest of its days.</summary>
/// <param name="Sites">The sites whose jobs it tells: one, where the service made it.</param>
/// <param name="From">First day.</param>
/// <param name="Until">Last day.</param>
/// <param name="Index">The entry of this very file.</param>
/// <param name="Newer">The last entry since by which a record of these days was filed, corrected or judged anew; null where
/// there is none.</param>
public sealed record PeriodHere(
    ImmutableArray<string> Sites,
    DateOnly From,
    DateOnly Until,
    long Index,
    long? Newer
)
{
    /// <summary>Null where this very file is not filed in the log as the report of a period.</summary>
    public static PeriodHere? Of(
        ILedgerReading log,
        IRowReading rows,
        ReadOnlyMemory<byte> file,
        SignedReport signed
    )
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(signed);
        if (
            !signed.IsIntact
            || !signed.Attachments.TryGetValue(PeriodFiles.JobsName, out var attached)
            || !SafeWorkJobsFormat.Current.Read(attached).TryGet(out var told, out _)
            || FilePeriodReport.Find(log, told.From, told.Until, ContentHash.Of(file.Span)) is not { } own
        )
        {
            return null;
        }

        ImmutableArray<string> sites =
        [
            .. told
                .Jobs.Select(job => Text(job.Context, "site"))
                .OfType<string>()
                .Distinct(StringComparer.Ordinal),
        ];
        return new(sites, told.From, told.Until, own.Index, LaterThan(own.Index, sites, told, rows));
    }

    private static string? Text(JsonNode document, string member) =>
        document[member] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    private static long? LaterThan(
        long own,
        ImmutableArray<string> sites,
        SafeWorkJobs told,
        IRowReading rows
    )
    {
        var now = sites.SelectMany(site => RowsOf(site, told, rows)).ToList();
        var seen = now.Select(row => row.Record).ToHashSet(StringComparer.Ordinal);
        // A correction may have moved a job to another day.
        var moved = told
            .Jobs.Select(job => Text(job.Record, "id"))
            .OfType<string>()
            .Where(id => !seen.Contains(id))
            .Select(id => rows.Versions(id).LastOrDefault())
            .OfType<RecordRow>();
        return now.Concat(moved)
            .Select(row => Math.Max(row.Index, row.AssessmentIndex ?? 0))
            .Where(index => index > own)
            .Select(index => (long?)index)
            .Max();
    }

    private static IEnumerable<RecordRow> RowsOf(string site, SafeWorkJobs told, IRowReading rows)
    {
        var filter = new RecordFilter
        {
            Site = site,
            From = told.From,
            Until = told.Until,
        };
        RowPlace? beyond = null;
        do
        {
            var page = rows.Records(filter, new RowPaging { Beyond = beyond, Most = RowPaging.MostRows });
            foreach (var row in page.Rows)
            {
                yield return row;
            }

            beyond = page.Next;
        } while (beyond is not null);
    }
}
