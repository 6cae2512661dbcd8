using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Notices;

/// <summary>Who was told, who waits, and who was not reached and is tried anew.</summary>
internal static class NoticePages
{
    public const string Place = "/notices";

    private const string AgainWord = "again";
    private const int Together = 100;

    public static void MapNoticePages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, List).ExcludeFromDescription();
        routes.MapPost(Place + "/{id}/retry", Retry).TakesForm();
    }

    private static RazorComponentResult<NoticesPage> List(
        HttpContext context,
        NoticeDesk desk,
        OpenLedger ledger,
        IDueStore due,
        string? state,
        string? after
    )
    {
        var caller = Caller.Known(context.User);
        // A page forgives what an interface for programs refuses.
        var asked = NoticeWords.All.Contains(state ?? "") ? state! : NoticeWords.GivenUp;
        var (items, next) = desk.In(
            NoticeWords.Read(asked)!.Value,
            after is not null && desk.IsName(after) ? after : null,
            Together,
            caller.Sites
        );
        var again = context.Request.Query[AgainWord].ToString() is { Length: > 0 } id
            ? desk.Find(id, SeenEntries.By(caller, ledger, due))
            : null;
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(NoticesPage.Token)] = FormToken.Of(context),
                [nameof(NoticesPage.State)] = asked,
                [nameof(NoticesPage.Notices)] = items
                    .Select(notice => ShownNotice.Of(notice, ledger, caller))
                    .ToList(),
                [nameof(NoticesPage.Next)] = next,
                [nameof(NoticesPage.Again)] = again is null ? null : ShownNotice.Of(again, ledger, caller),
            }
        );
    }

    private static IResult Retry(
        HttpContext context,
        NoticeDesk desk,
        NoticeBell bell,
        OpenLedger ledger,
        IDueStore due,
        string id
    )
    {
        var caller = Caller.Known(context.User);
        if (desk.TryAnew(id, caller.Name, SeenEntries.By(caller, ledger, due)) is not { } kept)
        {
            return Complaint.Of(ProblemKind.NotFound, $"there is no notice `{Shortened.To(id, 96)}`");
        }

        bell.Ring();
        return SeeOther.At(
            context,
            Place + QueryString.Create(AgainWord, kept.Id).ToUriComponent() + "#done"
        );
    }
}
