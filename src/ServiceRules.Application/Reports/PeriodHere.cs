using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
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
/// <param name="Newer">The last entry by which a record of these days was filed or corrected that it does not tell, or by which one was
/// judged anew since; null where there is none.</param>
public sealed record PeriodHere(
    ImmutableArray<string> Sites,
    DateOnly From,
    DateOnly Until,
    long Index,
    long? Newer
)
{
    /// <summary>Null where this very file is not filed in the log as the report of a period, or one of its sites is not seen.</summary>
    /// <param name="log">The log.</param>
    /// <param name="rows">What is asked of it, after the sites.</param>
    /// <param name="file">The file.</param>
    /// <param name="signed">What was read of it.</param>
    /// <param name="sees">Whether whoever asks sees a site.</param>
    public static PeriodHere? Of(
        ILedgerReading log,
        IRowReading rows,
        ReadOnlyMemory<byte> file,
        SignedReport signed,
        Func<string, bool> sees
    )
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(signed);
        if (
            !signed.IsIntact
            || !signed.Attachments.TryGetValue(PeriodFiles.JobsName, out var attached)
            || !SafeWorkJobsFormat.Current.Read(attached).TryGet(out var told, out _)
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
        return
            sites.All(sees)
            && FilePeriodReport.Find(log, told.From, told.Until, ContentHash.Of(file.Span)) is { } own
            ? new(sites, told.From, told.Until, own.Index, new Since(own.Index, told, rows).Last(sites))
            : null;
    }

    private static string? Text(JsonNode document, string member) =>
        document[member] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    /// <summary>
    /// Records are read, judged and drawn before the report is filed: what came to the log meanwhile stands before the report and is not
    /// in it, so that its jobs are compared themselves.
    /// </summary>
    private sealed class Since(long own, SafeWorkJobs told, IRowReading rows)
    {
        private readonly ILookup<string, string> attached = told
            .Jobs.Select(job => (Id: Text(job.Record, "id"), Digest: DigestOf(job.Record)))
            .Where(job => job.Id is not null)
            .ToLookup(job => job.Id!, job => job.Digest, StringComparer.Ordinal);

        public long? Last(ImmutableArray<string> sites)
        {
            var now = sites.SelectMany(site => rows.OfDays(site, told.From, told.Until)).ToList();
            var seen = now.Select(row => row.Record).ToHashSet(StringComparer.Ordinal);
            // A correction may have moved a job to another day.
            var moved = attached
                .Select(job => job.Key)
                .Where(id => !seen.Contains(id))
                .Select(id => rows.Versions(id).LastOrDefault())
                .OfType<RecordRow>();
            return now.Where(IsNewer)
                .Concat(moved.Where(IsNewer))
                .Concat(Missing(now))
                .Select(row => (long?)LastOf(row))
                .Max();
        }

        private static long LastOf(RecordRow row) => Math.Max(row.Index, row.AssessmentIndex ?? 0);

        // The form in which a record is filed.
        private static string DigestOf(JsonNode record) =>
            CanonicalForm.Find(Encoding.UTF8.GetBytes(record.ToJsonString()))?.Hash.ToString() ?? "";

        // A report of files may tell a version that was never filed here: none that stands here is newer for that.
        private bool IsNewer(RecordRow row) =>
            LastOf(row) > own
            || (
                attached.Contains(row.Record)
                && !attached[row.Record].Contains(row.RecordHash)
                && rows.Versions(row.Record).Any(version => attached[row.Record].Contains(version.RecordHash))
            );

        /// <summary>Those that it neither tells nor says it left out; of very many left out it names the first, and counts the others.</summary>
        private List<RecordRow> Missing(IEnumerable<RecordRow> now)
        {
            var left = told
                .LeftOut.Names.Concat(told.LeftOut.Contradicting.Select(one => one.Record))
                .ToHashSet(StringComparer.Ordinal);
            var missing = now.Where(row => !attached.Contains(row.Record) && !left.Contains(row.Record))
                .ToList();
            return missing.Count > told.LeftOut.Unusable - told.LeftOut.Names.Length ? missing : [];
        }
    }
}
