using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Reports;

/// <summary>Where a report stands in a log that can be asked itself, and whether it tells the newest of its record.</summary>
/// <param name="Subject">The record that the report is about.</param>
/// <param name="Index">The entry of this very file.</param>
/// <param name="Newer">The entry that has superseded what the report tells: a later version of the record, or a later
/// assessment of it; null where there is none.</param>
public sealed record ReportHere(string Subject, long Index, long? Newer)
{
    /// <summary>Null where this very file is not filed in the log as the report of one record.</summary>
    public static ReportHere? Of(ILedgerReading log, ReadOnlyMemory<byte> file, SignedReport signed)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(signed);
        if (
            !signed.IsIntact
            || !signed.Attachments.ContainsKey(EvidenceFiles.RecordName)
            || AttachedEvidence.Read(signed.Attachments).Evidence is not { } evidence
        )
        {
            return null;
        }

        var subject = evidence.Record.Value.Id.Text;
        var hash = ContentHash.Of(file.Span).ToString();
        var about = EntryReading.About(log, subject).ToList();
        return
            about.Find(entry => entry.Entry.Kind is EntryKind.Report && entry.Entry.Content == hash)
                is { } own
            ? new(subject, own.Index, LaterThan(own, about))
            : null;
    }

    // A report is of one assessment: whatever was judged last tells the newest version too.
    private static long? LaterThan(FiledEntry own, List<FiledEntry> about) =>
        about.FindLast(entry => entry.Entry.Kind is EntryKind.Assessment) is { } last
        && last.Entry.Content != own.Entry.Of
            ? last.Index
            : null;
}
