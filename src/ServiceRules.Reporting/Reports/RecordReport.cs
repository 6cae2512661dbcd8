using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Reports;

/// <summary>What every signed report of one record is made with, whatever its pages tell: title, head, evidence, signature.</summary>
/// <param name="kind">What it calls itself, such as `Service report`.</param>
/// <param name="content">Its pages; given how they are laid out, for content that names a page.</param>
internal sealed class RecordReport(
    string kind,
    Func<JobView, SignatureStatement, Func<Stack, PlacedDocument>, Stack> content
)
{
    /// <summary>What the title begins with, by which the kind of report is told.</summary>
    public string TitleStart => $"{kind} ";

    public string TitleOf(string record) => $"{TitleStart}{record}";

    public byte[] Write(
        Assessed assessed,
        ReportTerms terms,
        IReportSigner signer,
        DateTimeOffset issuedAt,
        ITimestampAuthority? authority,
        FilingProofs? proofs
    )
    {
        var statement = ReportIssue.Stated(signer, issuedAt, authority);
        return PdfReportWriter.Write(
            LayOut(
                assessed,
                terms,
                statement,
                FontMeasure.Shipped,
                ReportIssue.Log(proofs),
                Pagination.PagesMax
            ),
            Title(assessed, terms, statement),
            ReportAttachments.Of(assessed.Evidence, proofs),
            signer,
            authority
        );
    }

    /// <summary>The same file, but for its signature.</summary>
    /// <exception cref="InvalidOperationException">It takes more pages, or cannot be laid out.</exception>
    public byte[] DrawAnew(
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

    public PlacedDocument LayOut(
        Assessed assessed,
        ReportTerms terms,
        SignatureStatement signature,
        ITextMeasure measure,
        FiledIn? log,
        int pagesMax
    )
    {
        var record = assessed.Record;
        var job = new JobView(assessed, terms, measure, signature.At) { Log = log };
        var design = ReportPages.Design(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{kind} · {record.Id.Text} · {record.Machine.Id.Text} · {record.Date:yyyy-MM-dd}"
            ),
            assessed.Context.Site,
            ReportPages.Digest("record", assessed.Evidence.Record),
            pagesMax
        );
        return LaidOut(content(job, signature, LaidOut));

        PlacedDocument LaidOut(Stack pages) => Pagination.LayOut(pages, design, measure);
    }

    private DocumentTitle Title(Assessed assessed, ReportTerms terms, SignatureStatement statement)
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
