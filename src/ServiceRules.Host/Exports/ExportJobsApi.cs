using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Net.Http.Headers;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Exports;

/// <summary><c>POST /api/exports</c>: whole lists as files that are written behind the answer, and kept for a day.</summary>
internal static class ExportJobsApi
{
    public const string Place = "/api/exports";

    private const string IdText = "the export, as its answer named it";

    public static void MapExportJobs(this IEndpointRouteBuilder routes)
    {
        var exports = routes.MapGroup(Place).WithTags("exports");
        exports
            .MapPost("", AskAsync)
            .WithName("askForExport")
            .WithSummary(
                "Has a list, or the signed report of a period, written to a file, behind the answer."
            )
            .WithDescription(
                "A report stands in the log once it is done. The file outlives the service and is kept for a day, for whoever asked alone. The same asked for again while it is "
                    + "written is one export."
            )
            .Accepts<ExportRequestDocument>(MediaTypes.Json)
            .Produces<ToldExport>(StatusCodes.Status202Accepted)
            .Complains(
                ProblemKind.BadRequest,
                ProblemKind.Unreadable,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.Full
            );
        exports
            .MapGet("/{id}", Tell)
            .WithName("readExport")
            .WithSummary("How far an export is.")
            .Produces<ToldExport>()
            .Complains(ProblemKind.NotFound);
        exports
            .MapGet("/{id}/file", File)
            .WithName("readExportFile")
            .WithSummary("The file of an export that is done.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Csv, MediaTypes.Lines, MediaTypes.Pdf)
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound)
            .DisableRequestTimeout();
        exports
            .MapGet("/{id}/proof", Proof)
            .WithName("readExportProof")
            .WithSummary("The proof that the report of a period stands in the log.")
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.PlainText)
            .Complains(ProblemKind.NotFound);
    }

    private static async Task<IResult> AskAsync(
        HttpContext context,
        ExportDesk desk,
        ServedSites sites,
        OpenLedger ledger,
        ServiceSettings settings,
        CancellationToken stop
    )
    {
        var body = await RequestBody.ReadAsync(context.Request, settings.Limits, stop);
        if (!ExportRequestFormat.Current.Read(body).TryGet(out var request, out var problems))
        {
            return Complaint.Of(problems);
        }

        var caller = Caller.Known(context.User);
        if (Unfit(request, caller, sites, ledger, out request) is { } unfit)
        {
            return unfit;
        }

        if (desk.Ask(request, caller) is not { } job)
        {
            return Complaint.Of(
                ProblemKind.TooMany,
                $"{ExportDesk.MostOfOne} exports are kept for this caller; each is removed a day after it was asked for"
            );
        }

        context.Response.Headers.Location = $"{Place}/{job.Id}";
        context.Response.StatusCode = StatusCodes.Status202Accepted;
        return Results.Bytes(AnswerJson.Bytes(ToldExport.Of(job), context), MediaTypes.Json);
    }

    /// <summary>What is wrong with the site that is asked of; null when nothing.</summary>
    /// <param name="fit">The same, a report with the site that it is of.</param>
    public static IResult? Unfit(
        ExportRequest request,
        Caller caller,
        ServedSites sites,
        OpenLedger ledger,
        out ExportRequest fit
    )
    {
        fit = request;
        if (request.What is not ExportedList.SafeWork)
        {
            return sites.OfList(caller, request.Filter.Site, ledger);
        }

        // A report is of one site, and signed by it.
        if (sites.Choose(caller, request.Filter.Site, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        fit = request with { Filter = request.Filter with { Site = own.Name } };
        return null;
    }

    private static IResult Tell(HttpContext context, [Description(IdText)] string id, ExportDesk desk) =>
        desk.Find(id, Caller.Known(context.User)) is { } job
            ? Conditional.Json(ToldExport.Of(job), context)
            : None(id);

    private static IResult File(HttpContext context, [Description(IdText)] string id, ExportDesk desk)
    {
        if (desk.Find(id, Caller.Known(context.User)) is not { } job)
        {
            return None(id);
        }

        if (job is not { State: ExportState.Done, Digest: { } digest })
        {
            return Complaint.Of(
                ProblemKind.NotFound,
                job.Failure is { } why ? $"there will be no file: {why}" : "the file is not whole yet",
                $"what `{Place}/{job.Id}` tells as `done`"
            );
        }

        var request = ExportDesk.RequestOf(job);
        var (type, name) = request.As switch
        {
            ExportedForm.Csv => (MediaTypes.Csv + "; charset=utf-8; header=present", Named(request, "csv")),
            ExportedForm.Pdf => (
                MediaTypes.Pdf,
                FilePeriodReport.SubjectOf(request.Filter.From!.Value, request.Filter.Until!.Value) + ".pdf"
            ),
            _ => (MediaTypes.Lines, Named(request, "jsonl")),
        };
#pragma warning disable CA2000 // The answer disposes of it.
        var file = desk.Open(job);
#pragma warning restore CA2000
        return Results.Stream(
            file,
            type,
            name,
            entityTag: new EntityTagHeaderValue($"\"{digest.ToString()["sha256:".Length..]}\"")
        );
    }

    private static IResult Proof(
        HttpContext context,
        [Description(IdText)] string id,
        ExportDesk desk,
        OpenLedger ledger
    ) =>
        desk.Find(id, Caller.Known(context.User)) is not { } job ? None(id)
        : job is { State: ExportState.Done, Digest: { } digest }
        && ExportDesk.RequestOf(job)
            is { What: ExportedList.SafeWork, Filter: { From: { } from, Until: { } until } }
        && FilePeriodReport.Find(ledger.Log, from, until, digest) is { } entry
        // What another instance filed since is stored, and no head that is known here covers it yet.
        && entry.Index < (ledger.Head?.Size ?? 0)
            ? Results.Text(ledger.ProveWithEntry(entry), MediaTypes.PlainText)
        : Complaint.Of(
            ProblemKind.NotFound,
            "it is no report that stands in the log",
            "a report that is `done`"
        );

    private static string Named(ExportRequest request, string ending) =>
        $"{request.What.ToString().ToLowerInvariant()}.{ending}";

    private static IResult None(string id) =>
        Complaint.Of(ProblemKind.NotFound, $"there is no export `{Shortened.To(id, 64)}` of this caller");
}
