using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports.SafeWork;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Reports;

/// <summary>
/// What the records of a period show of safe work: one page that leads with what needs action, then every job. Laid out,
/// painted, evidence attached, signed.
/// </summary>
public static class SafeWorkPeriodReport
{
    private const double Spacing = 4;

    /// <summary>The finished file. Reads no clock: everything in it is stamped with the instant given.</summary>
    /// <param name="authority">Who stamps the signature; null when nobody is asked.</param>
    /// <exception cref="TimestampException">The authority gave no time-stamp; there is no report then.</exception>
    public static byte[] Write(
        SafeWorkPeriod period,
        ReportTerms terms,
        IReportSigner signer,
        DateTimeOffset issuedAt,
        ITimestampAuthority? authority = null
    )
    {
        var statement = ReportIssue.Stated(signer, issuedAt, authority);
        return PdfReportWriter.Write(
            LayOut(period, terms, statement, FontMeasure.Shipped),
            Title(period, terms, statement),
            Attachments(period.Evidence),
            signer,
            authority
        );
    }

    /// <summary>The same file as <see cref="Write"/> makes, but for its signature: for holding another against it.</summary>
    internal static byte[] DrawAnew(
        SafeWorkPeriod period,
        ReportTerms terms,
        SignatureStatement statement,
        int pagesMax
    ) =>
        PdfReportWriter.WriteUnsigned(
            LayOut(period, terms, statement, FontMeasure.Shipped, pagesMax),
            Title(period, terms, statement),
            Attachments(period.Evidence),
            statement
        );

    internal static PlacedDocument LayOut(
        SafeWorkPeriod period,
        ReportTerms terms,
        SignatureStatement signature,
        ITextMeasure measure,
        int pagesMax = Pagination.PagesMax
    )
    {
        var view = new PeriodView(period, terms, measure, signature.At);
        var design = ReportPages.Design(
            $"Safe-work report · {view.Days}",
            view.Sites,
            ReportPages.Digest("jobs", period.Evidence.Jobs),
            pagesMax
        );
        var room = PageOneRoom.For(
            tried => [.. PageOne(view, tried)],
            design with
            {
                PagesMax = Pagination.PagesMax,
            },
            measure,
            Spacing
        );
        return Pagination.LayOut(Content(view, room, signature), design, measure);
    }

    private static IEnumerable<Block> PageOne(PeriodView view, PageOneRoom room) =>
        [
            PeriodOutcomeSection.Of(view),
            .. PeriodActionSection.Of(view, room.Jobs, room.Named),
            .. ExemptSection.Of(view, room.GoingOn),
            .. GoingOnSection.Of(view, room.GoingOn),
            .. RecurringSection.Of(view, room.Duties),
            .. PeriodProgrammeSection.Of(view, room.Registers),
            PrecedenceSection.Of(view.Clauses.Texts, view.Measure),
        ];

    private static Stack Content(PeriodView view, PageOneRoom room, SignatureStatement signature) =>
        new(
            [
                .. PageOne(view, room),
                .. RecurringSection.Rest(view, room.Duties),
                .. PeriodProgrammeSection.Rest(view, room.Registers),
                .. PlacesSection.Of(view),
                .. PeriodDetailSection.Of(view),
                .. JobListSection.Of(view),
                .. PeriodBasisSection.Of(view, signature),
            ],
            Spacing
        );

    /// <summary>The title that the report of a period carries.</summary>
    public static string TitleOf(SafeWorkPeriod period) =>
        $"{SafeWorkReport.TitleStart}{PeriodView.Day(period.From)} to {PeriodView.Day(period.Until)}";

    private static DocumentTitle Title(
        SafeWorkPeriod period,
        ReportTerms terms,
        SignatureStatement statement
    ) => new(TitleOf(period), $"{period.Jobs.Length} jobs", terms.Language, statement.At);

    private static Attachment[] Attachments(PeriodFiles evidence) =>
        [
            new(
                PeriodFiles.JobsName,
                "the service records of the period, with the registers they were judged with",
                AttachmentRelation.Source,
                evidence.Jobs.Bytes
            ),
            new(
                PeriodFiles.RulesName,
                "rule packs and limit sheets",
                AttachmentRelation.Data,
                evidence.Rules.Bytes
            ),
            new(
                PeriodFiles.SummaryName,
                "what each record shows of safe work",
                AttachmentRelation.Data,
                evidence.Summary.Bytes
            ),
        ];
}
