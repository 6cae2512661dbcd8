using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Library;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/records</c>: submitting, amending and reading service records.</summary>
internal static class RecordsApi
{
    private const string Root = "/api/records";

    public static void MapRecords(this IEndpointRouteBuilder routes)
    {
        var records = routes.MapGroup(Root).WithTags("records");
        records
            .MapPost("", SubmitAsync)
            .WithName("submitRecord")
            .WithSummary("Judges a record and files it with its assessment.")
            .WithDescription(
                "Once this answers, record and assessment are on the disk, in the log, under a signed checkpoint. The same record "
                    + "again adds nothing (200); an open job may be sent again further on (201); anything else under the same "
                    + "identity is a conflict, told with the first differences."
            )
            .Accepts<ServiceRecordDocument>(MediaTypes.Json)
            .Produces<SubmissionAnswer>(StatusCodes.Status201Created)
            .Produces<SubmissionAnswer>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.Conflict,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.Full
            );
        records
            .MapPost("/{id}/amendments", AmendAsync)
            .WithName("amendRecord")
            .WithSummary("Corrects a filed record: the earlier version stays.")
            .Accepts<ServiceRecordDocument>(MediaTypes.Json)
            .Produces<SubmissionAnswer>(StatusCodes.Status201Created)
            .Produces<SubmissionAnswer>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.NotFound,
                ProblemKind.Conflict,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.Full
            );
        records
            .MapGet("/{id}", ReadAsync)
            .WithName("readRecord")
            .WithSummary("A record as it stands, its assessment, and its versions over time.")
            .Produces<RecordAnswer>()
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound);
    }

    private static async Task<IResult> SubmitAsync(
        HttpRequest request,
        FilingDesk desk,
        SiteRegisters site,
        ServiceSettings settings,
        string? by,
        CancellationToken stop
    ) =>
        by is not null && !GivenPerson.IsRegistered(site, by)
            ? GivenPerson.Unknown(by)
            : Answer(
                await desk.SubmitAsync(await RequestBody.ReadAsync(request, settings.Limits, stop), by, stop),
                request.HttpContext
            );

    private static async Task<IResult> AmendAsync(
        HttpRequest request,
        FilingDesk desk,
        SiteRegisters site,
        ServiceSettings settings,
        string id,
        string? by,
        string? reason,
        CancellationToken stop
    ) =>
        GivenPerson.Correction(site, by, reason, out var correction)
        ?? Answer(
            await desk.AmendAsync(
                id,
                await RequestBody.ReadAsync(request, settings.Limits, stop),
                correction!,
                stop
            ),
            request.HttpContext
        );

    private static async Task<IResult> ReadAsync(
        HttpContext context,
        FilingDesk desk,
        string id,
        CancellationToken stop
    ) =>
        await desk.AskAsync(ledger => ledger.Read(log => RecordAnswer.Of(log, id)), stop) is { } answer
            ? Conditional.Json(answer, context)
            : Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");

    private static IResult Answer(Submission submission, HttpContext context)
    {
        switch (submission)
        {
            case Submission.Stands stands:
                var answer = SubmissionAnswer.Of(stands);
                var place = $"{Root}/{answer.Id}";
                context.Response.Headers.ContentLocation = place;
                return answer.IsNew ? Results.Created(place, answer) : Results.Ok(answer);
            case Submission.Unreadable unreadable:
                return Complaint.Of(unreadable.Problems);
            case Submission.Conflict conflict:
                return Complaint.Of(conflict.Refusal, conflict.Differences);
            case Submission.NothingToAmend:
                return Complaint.Of(
                    ProblemKind.NotFound,
                    "no such record is filed, so there is nothing to amend"
                );
            case Submission.OtherRecord other:
                return Complaint.Of(
                    ProblemKind.Refused,
                    $"the body is of `{other.Id}`, which is not the record that is to be amended",
                    "the record that the address names"
                );
            default:
                throw new InvalidOperationException("an unknown outcome of submitting");
        }
    }
}
