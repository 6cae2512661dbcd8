using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports.SafeWork;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Reports;

/// <summary>
/// What the record of one job shows of safe work, for a reader who has nothing else: laid out, painted, evidence attached,
/// signed. It carries the same documents as the service report of the job.
/// </summary>
public static class SafeWorkReport
{
    /// <summary>What the title begins with, by which the kind of report is told.</summary>
    internal const string TitleStart = "Safe-work report ";

    /// <summary>The finished file. Reads no clock: everything in it is stamped with the instant given.</summary>
    /// <param name="authority">Who stamps the signature; null when nobody is asked.</param>
    /// <param name="proofs">That record and assessment stand in a log; null when they were not filed.</param>
    /// <exception cref="TimestampException">The authority gave no time-stamp; there is no report then.</exception>
    public static byte[] Write(
        Assessed assessed,
        ReportTerms terms,
        IReportSigner signer,
        DateTimeOffset issuedAt,
        ITimestampAuthority? authority = null,
        FilingProofs? proofs = null
    )
    {
        var statement = ReportIssue.Stated(signer, issuedAt, authority);
        return PdfReportWriter.Write(
            LayOut(assessed, terms, statement, FontMeasure.Shipped, ReportIssue.Log(proofs)),
            Title(assessed, terms, statement),
            ReportAttachments.Of(assessed.Evidence, proofs),
            signer,
            authority
        );
    }

    /// <summary>The same file as <see cref="Write"/> makes, but for its signature: for holding another against it.</summary>
    internal static byte[] DrawAnew(
        Assessed assessed,
        ReportTerms terms,
        SignatureStatement statement,
        FilingProofs? proofs,
        int pagesMax
    ) =>
        PdfReportWriter.WriteUnsigned(
            LayOut(assessed, terms, statement, FontMeasure.Shipped, ReportIssue.Log(proofs), pagesMax),
            Title(assessed, terms, statement),
            ReportAttachments.Of(assessed.Evidence, proofs),
            statement
        );

    internal static PlacedDocument LayOut(
        Assessed assessed,
        ReportTerms terms,
        SignatureStatement signature,
        ITextMeasure measure,
        FiledIn? log = null,
        int pagesMax = Pagination.PagesMax
    )
    {
        var job = new JobView(assessed, terms, measure, signature.At) { Log = log };
        var record = assessed.Record;
        var design = ReportPages.Design(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Safe-work report · {record.Id.Text} · {record.Machine.Id.Text} · {record.Date:yyyy-MM-dd}"
            ),
            assessed.Context.Site,
            ReportPages.Digest("record", assessed.Evidence.Record),
            pagesMax
        );
        return Pagination.LayOut(Content(new SafeWorkView(job), signature), design, measure);
    }

    private static Stack Content(SafeWorkView view, SignatureStatement signature) =>
        new(
            [
                .. ShownSection.Of(view),
                PrecedenceSection.Of(view.Clauses.Texts, view.Job.Measure),
                FactsSection.Of(view.Job, signature),
                .. ProtectedSection.Of(view),
                .. LanesSection.Of(view),
                .. DutyMatrixSection.Of(view),
                .. RegistersSection.Of(view),
                .. EventListSection.Of(view),
                DigestSection.Of(view.Job),
            ],
            6
        );

    /// <summary>The title that the safe-work report of a record carries.</summary>
    public static string TitleOf(string record) => $"{TitleStart}{record}";

    private static DocumentTitle Title(Assessed assessed, ReportTerms terms, SignatureStatement statement)
    {
        var record = assessed.Record;
        return new DocumentTitle(
            TitleOf(record.Id.Text),
            string.Create(
                CultureInfo.InvariantCulture,
                $"Machine {record.Machine.Id.Text}, {record.Date:yyyy-MM-dd}"
            ),
            terms.Language,
            statement.At
        );
    }
}
