using System.ComponentModel;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/records/{id}/report</c>: the signed report of a record.</summary>
internal static class ReportsApi
{
    public static void MapReports(this IEndpointRouteBuilder routes)
    {
        var reports = routes.MapGroup("/api/records/{id}/report").WithTags("reports");
        reports
            .MapGet("", PdfAsync)
            .WithName("readReport")
            .WithSummary("The signed report of the newest version.")
            .WithDescription(
                "Drawn, signed and filed when it is asked for first; whoever asks again gets that file. The link of relation "
                    + "`describedby` leads to its own proof. A technician gets none that tells of records that the account may not see."
            )
            .Produces<byte[]>(StatusCodes.Status200OK, MediaTypes.Pdf)
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound, ProblemKind.Gone, ProblemKind.Full);
        reports
            .MapGet("/proof", ProofAsync)
            .WithName("readReportProof")
            .WithSummary("The proof that this very file stands in the log.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound, ProblemKind.Gone, ProblemKind.Full);
        routes
            .MapGet("/api/certificate", Certificate)
            .WithTags("reports")
            .WithName("readCertificate")
            .WithSummary(
                "The certificate that reports are signed with here, in PEM: for whoever verifies them."
            )
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Pem)
            .Complains(ProblemKind.BadRequest);
    }

    private static IResult Certificate(
        HttpContext context,
        ServedSites sites,
        ReportDesks desks,
        [Description(SiteText.Text)] string? site
    ) =>
        sites.Choose(Caller.Known(context.User), site, out var own)
        ?? (
            desks.Of(own.Name).Certificate() is { } pem
                ? Conditional.Of(Encoding.ASCII.GetBytes(pem + "\n"), MediaTypes.Pem)
                : NoKey()
        );

    private static IResult NoKey() =>
        Complaint.Of(ProblemKind.Failed, "there is no usable signing key; the log of the service tells why");

    private static Task<IResult> PdfAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        ReportDesks desks,
        [Description("the identity of the record")] string id,
        CancellationToken stop
    ) =>
        AnswerAsync(
            context,
            ledger,
            sites,
            desks,
            id,
            report =>
            {
                context.Response.Headers.Link = $"<{context.Request.Path}/proof>; rel=\"describedby\"";
                return Conditional.Of(report.Pdf, MediaTypes.Pdf, $"{report.Entry.Entry.Subject}.pdf");
            },
            stop
        );

    private static Task<IResult> ProofAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        ReportDesks desks,
        [Description("the identity of the record")] string id,
        CancellationToken stop
    ) =>
        AnswerAsync(
            context,
            ledger,
            sites,
            desks,
            id,
            report => Results.Text(desks.OfRecord(id).Proof(report.Entry), MediaTypes.PlainText),
            stop
        );

    private static async Task<IResult> AnswerAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        ReportDesks desks,
        string id,
        Func<FiledReport, IResult> answer,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (!SeenRecords.IsSeen(ledger, id, caller))
        {
            return NotFiled(id);
        }

        // It is signed whole: nothing can be kept back of it.
        return SeenOthers.AreHidden(ledger, id, caller, sites)
            ? Complaint.Of(
                ProblemKind.NotAllowed,
                "the signed report tells of other records, which whoever asks may not see, and cannot be cut",
                "a lead or an officer of the site asks for it at the same address, and hands it out"
            )
            : await desks.OfRecord(id).OfAsync(id, stop) switch
            {
                ReportAnswer.Issued issued => answer(issued.Report),
                ReportAnswer.NotFiled => NotFiled(id),
                ReportAnswer.NotKept none => Complaint.Of(ProblemKind.Gone, none.Why),
                ReportAnswer.NoKey => NoKey(),
                _ => throw new InvalidOperationException("an unknown outcome of asking for a report"),
            };
    }

    private static IResult NotFiled(string id) =>
        Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");
}
