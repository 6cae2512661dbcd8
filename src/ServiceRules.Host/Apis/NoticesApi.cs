using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/notices</c>: who was not reached, and is tried anew.</summary>
internal static class NoticesApi
{
    public static void MapNotices(this IEndpointRouteBuilder routes)
    {
        var notices = routes.MapGroup("/api/notices").WithTags("notices");
        notices
            .MapGet("", List)
            .WithName("listNotices")
            .WithSummary(
                "Notices in one state, the newest first: those that were given up, unless another is asked for."
            )
            .Produces<PageAnswer<KeptNotice>>()
            .Complains(ProblemKind.BadRequest);
        notices
            .MapPost("/{id}/retry", Retry)
            .WithName("retryNotice")
            .WithSummary("Has a notice that was given up tried from the first attempt on.")
            .WithDescription("One that was not given up stays as it is. The answer is how it stands.")
            .Produces<KeptNotice>()
            .Complains(ProblemKind.NotFound, ProblemKind.Full);
    }

    private static IResult List(HttpContext context, [AsParameters] NoticeQuery query, NoticeDesk desk)
    {
        if (query.Fault(context.Request, desk) is { } wrong)
        {
            return wrong;
        }

        var caller = Caller.Known(context.User);
        var (items, next) = desk.In(
            NoticeWords.Read(query.State ?? NoticeWords.GivenUp)!.Value,
            query.After,
            query.Most,
            caller.Sites
        );
        return Conditional.Json(new PageAnswer<KeptNotice>(items, next), context);
    }

    private static IResult Retry(
        HttpContext context,
        [Description("the identity of the notice, as the list tells it")] string id,
        NoticeDesk desk,
        NoticeBell bell,
        OpenLedger ledger,
        IDueStore due
    )
    {
        var caller = Caller.Known(context.User);
        if (desk.TryAnew(id, caller.Name, SeenEntries.By(caller, ledger, due)) is not { } kept)
        {
            return Complaint.Of(ProblemKind.NotFound, $"there is no notice `{Shortened.To(id, 96)}`");
        }

        bell.Ring();
        return Results.Bytes(AnswerJson.Bytes(kept, context), MediaTypes.Json);
    }
}
