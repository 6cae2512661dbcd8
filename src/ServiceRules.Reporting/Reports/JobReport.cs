using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Reports;

/// <summary>The report of one job: laid out, painted, evidence attached, signed.</summary>
public static class JobReport
{
    private static readonly RecordReport Frame = new(
        "Service report",
        (job, signature, _) => Content(job, signature)
    );

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

    private static Stack Content(JobView job, SignatureStatement signature)
    {
        var blocks = new List<Block> { OutcomeSection.Of(job), FactsSection.Of(job, signature) };
        if (job.IsBrief)
        {
            blocks.Add(BriefUnitsSection.Of(job));
        }
        else
        {
            blocks.AddRange(UnitTiles.Of(job, ReportPages.TextWidth));
            blocks.Add(CautionSection.Of(job));
            foreach (var unit in job.Units)
            {
                blocks.Add(UnitSection.Of(job, unit));
            }
        }
        blocks.AddRange(SetSection.Of(job));
        blocks.AddRange(SafeWorkSection.Of(job, ReportPages.TextWidth));
        if (job.IsBrief)
        {
            blocks.Add(CautionSection.Of(job));
        }
        blocks.AddRange(InstrumentSection.Of(job));
        blocks.AddRange(BasisSection.Of(job));
        blocks.Add(DigestSection.Of(job));
        return new Stack([.. blocks], job.IsBrief ? 3 : 7);
    }
}
