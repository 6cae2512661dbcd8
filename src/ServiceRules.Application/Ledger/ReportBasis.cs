using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>What there is to report of the newest version of a record.</summary>
public abstract record ReportBasis
{
    private ReportBasis() { }

    /// <summary>No such record is filed.</summary>
    public sealed record NotFiled : ReportBasis;

    /// <summary>What a report would tell was removed on purpose, or cannot be read here.</summary>
    public sealed record NotKept(string Why) : ReportBasis;

    /// <summary>Its newest assessment has a report.</summary>
    public sealed record Issued(FiledReport Report) : ReportBasis;

    /// <summary>Its newest assessment has none yet.</summary>
    public sealed record Judged(Assessed Assessed, FiledEntry Record, FiledEntry Assessment) : ReportBasis;

    /// <summary>Reads it out of the log, as it was filed: nothing is judged anew.</summary>
    /// <exception cref="LedgerStoreException">Something of it is gone, or other bytes now, and no erasure removed it.</exception>
    public static ReportBasis Of(ILedgerReading log, string id)
    {
        ArgumentNullException.ThrowIfNull(log);
        var version = new TellSubject(log)
            .Tell(id)
            .LastOrDefault(one => one.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment);
        if (version is null)
        {
            return new NotFiled();
        }

        if (log.Kept(version.Entry.Entry.Content) is not { } record)
        {
            return new NotKept($"the record is {version.WhyNone}");
        }

        if (version.Assessments.IsEmpty)
        {
            return new NotKept("the record was not judged");
        }

        var judged = version.Assessments[^1];
        var issued = version.Reports.LastOrDefault(one => one.Entry.Of == judged.Entry.Entry.Content);
        // One whose time was over is made again, as a further one; one that is lost is a failure.
        if (issued is not null && log.Kept(issued.Entry.Content) is { } pdf)
        {
            return new Issued(new FiledReport(issued, pdf));
        }

        return log.Kept(judged.Entry.Entry.Content) is { } assessment && judged.Assessment is not null
            ? Read(log, version.Entry, judged, (record, assessment))
            : new NotKept($"the assessment is {judged.WhyNone}");
    }

    private static ReportBasis Read(
        ILedgerReading log,
        FiledEntry entry,
        SubjectVersion.Judged judged,
        (ReadOnlyMemory<byte> Record, ReadOnlyMemory<byte> Assessment) bytes
    )
    {
        var assessment = judged.Assessment!;
        if (log.Kept(assessment.Digests.Context) is null || log.Kept(assessment.Digests.Packs) is null)
        {
            return new NotKept("the registers or rules that it was judged by are no longer kept");
        }

        return
            FiledAssessed.Read(log, bytes.Record, (assessment, bytes.Assessment), _ => null) is { } assessed
            ? new Judged(assessed, entry, judged.Entry)
            : new NotKept("it was filed by another version of the product and cannot be read here");
    }
}
