using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Extensions;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>Lists of what is filed: records, units, findings, page by page in the order of the log.</summary>
internal static class RowsApi
{
    public static void MapRows(this IEndpointRouteBuilder routes)
    {
        var rows = routes.MapGroup("/api");
        rows.MapGet(
                "/records",
                (HttpContext context, [AsParameters] RowQuery query, OpenLedger ledger) =>
                    Answer(
                        context,
                        query,
                        (filter, paging) =>
                            SeenRecords.Rows(ledger, filter, paging, Caller.Known(context.User)),
                        query.FilterFor(Caller.Known(context.User)),
                        ToldRecord.Of
                    )
            )
            .Tells<ToldRecord>(
                "records",
                "listRecords",
                "Records, the newest first, each in its newest version."
            );
        rows.MapGet(
                "/units",
                (HttpContext context, [AsParameters] UnitQuery query, OpenLedger ledger) =>
                    Answer(
                        context,
                        query,
                        ledger.Rows.Units,
                        query.UnitsFor(Caller.Known(context.User)),
                        ToldUnit.Of
                    )
            )
            .Tells<ToldUnit>(
                "records",
                "listUnits",
                "Units, visit by visit; with latest=only as each stands now."
            );
        rows.MapGet(
                "/findings",
                (HttpContext context, [AsParameters] FindingQuery query, OpenLedger ledger) =>
                    Answer(
                        context,
                        query,
                        ledger.Rows.Findings,
                        query.FindingsFor(Caller.Known(context.User)),
                        ToldFinding.Of
                    )
            )
            .Tells<ToldFinding>(
                "records",
                "listFindings",
                "Findings on records, in the words of the assessments."
            );
    }

    private static void Tells<T>(this RouteHandlerBuilder route, string tag, string name, string summary) =>
        route
            .WithTags(tag)
            .WithName(name)
            .WithSummary(summary)
            .Produces<PageAnswer<T>>()
            .Complains(ProblemKind.BadRequest);

    private static IResult Answer<TFilter, TRow, TTold>(
        HttpContext context,
        RowQuery query,
        Func<TFilter, RowPaging, RowPage<TRow>> ask,
        TFilter filter,
        Func<TRow, TTold> tell
    )
    {
        if (query.Fault(context.Request) is { } wrong)
        {
            return wrong;
        }

        var page = ask(filter, query.Paging);
        if (page.Next is { } next)
        {
            context.Response.Headers.Link = $"<{NextAddress(context.Request, next)}>; rel=\"next\"";
        }

        return Conditional.Json(
            new PageAnswer<TTold>([.. page.Rows.Select(tell)], page.Next?.ToString()),
            context
        );
    }

    private static string NextAddress(HttpRequest request, RowPlace next)
    {
        var query = new QueryBuilder(request.Query.Where(one => one.Key != "after"))
        {
            { "after", next.ToString() },
        };
        return request.Path + query.ToQueryString();
    }
}
