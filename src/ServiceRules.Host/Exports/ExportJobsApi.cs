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
            .WithSummary("Has a list written to a file, behind the answer.")
            .WithDescription(
                "The file outlives the service and is kept for a day, for whoever asked alone. The same asked for again while it is "
                    + "written is one export."
            )
            .Accepts<ExportRequestDocument>(MediaTypes.Json)
            .Produces<ToldExport>(StatusCodes.Status202Accepted)
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.BadRequest,
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
            .Produces<string>(StatusCodes.Status200OK, MediaTypes.Csv, MediaTypes.Lines)
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound)
            .DisableRequestTimeout();
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
        if (sites.OfList(caller, request.Filter.Site, ledger) is { } elsewhere)
        {
            return elsewhere;
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
        var (type, ending) =
            request.As is ExportedForm.Csv
                ? (MediaTypes.Csv + "; charset=utf-8; header=present", "csv")
                : (MediaTypes.Lines, "jsonl");
#pragma warning disable CA2000 // The answer disposes of it.
        var file = desk.Open(job);
#pragma warning restore CA2000
        return Results.Stream(
            file,
            type,
            $"{request.What.ToString().ToLowerInvariant()}.{ending}",
            entityTag: new EntityTagHeaderValue($"\"{digest.ToString()["sha256:".Length..]}\"")
        );
    }

    private static IResult None(string id) =>
        Complaint.Of(ProblemKind.NotFound, $"there is no export `{Shortened.To(id, 64)}` of this caller");
}
