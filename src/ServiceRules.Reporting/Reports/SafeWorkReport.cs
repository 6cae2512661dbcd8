using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Layout;
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
    private static readonly RecordReport Frame = new(
        "Safe-work report",
        (job, signature, layOut) =>
        {
            var view = new SafeWorkView(job);
            var content = Content(view, signature);
            if (!view.IsCutOnPageOne)
            {
                return content;
            }
            view.PageOfProtection = PageOf(layOut(content), ProtectedSection.Title);
            return Content(view, signature);
        }
    );

    /// <summary>What the title begins with, by which the kind of report is told.</summary>
    internal static string TitleStart => Frame.TitleStart;

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
    ) => Frame.Write(assessed, terms, signer, issuedAt, authority, proofs);

    /// <summary>The same file as <see cref="Write"/> makes, but for its signature: for holding another against it.</summary>
    /// <param name="assessed">What the report tells.</param>
    /// <param name="terms">How it tells it.</param>
    /// <param name="statement">What is said about its signature.</param>
    /// <param name="proofs">That record and assessment stand in a log, or null.</param>
    /// <param name="pagesMax">More pages than these are not drawn.</param>
    /// <exception cref="InvalidOperationException">It takes more pages, or cannot be laid out.</exception>
    internal static byte[] DrawAnew(
        Assessed assessed,
        ReportTerms terms,
        SignatureStatement statement,
        FilingProofs? proofs,
        int pagesMax
    ) => Frame.DrawAnew(assessed, terms, statement, proofs, pagesMax);

    internal static PlacedDocument LayOut(
        Assessed assessed,
        ReportTerms terms,
        SignatureStatement signature,
        ITextMeasure measure,
        FiledIn? log = null,
        int pagesMax = Pagination.PagesMax
    ) => Frame.LayOut(assessed, terms, signature, measure, log, pagesMax);

    /// <summary>The title that the report of a record carries.</summary>
    public static string TitleOf(string record) => Frame.TitleOf(record);

    private static int PageOf(PlacedDocument document, string heading) =>
        1
        + document
            .Pages.TakeWhile(page =>
                !new PlacedDocument([page])
                    .Texts()
                    .Any(text => text.Content.StartsWith(heading, StringComparison.Ordinal))
            )
            .Count();

    private static Stack Content(SafeWorkView view, SignatureStatement signature) =>
        new(
            [
                .. ShownSection.Of(view),
                PrecedenceSection.Of(view.Clauses.Texts, view.Job.Measure),
                FactsSection.Of(view.Job, signature),
                .. ProtectedSection.Of(view),
                .. LanesSection.Of(view),
                .. RunsSection.Of(view),
                .. DutyMatrixSection.Of(view),
                .. RegistersSection.Of(view),
                .. EventListSection.Of(view),
                DigestSection.Of(view.Job),
            ],
            6
        );
}
