using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary><c>/api/due</c>: calibrations, training, inspections of procedures, and what units come to.</summary>
internal static class DueApi
{
    public static void MapDue(this IEndpointRouteBuilder routes) =>
        routes
            .MapGet("/api/due", List)
            .WithTags("due")
            .WithName("listDue")
            .WithSummary(
                "What falls due, the soonest first: calibrations, training, inspections of procedures, wear of units."
            )
            .WithDescription(
                "Registers count as they are, records as they were last looked through. A technician is told of their own training, and of "
                    + "gauges and procedures."
            )
            .Produces<DueAnswer>()
            .Complains(ProblemKind.BadRequest);

    private static IResult List(
        HttpContext context,
        [AsParameters] DueQuery query,
        DueDesk desk,
        ServedSites sites
    )
    {
        var caller = Caller.Known(context.User);
        return query.Fault(context.Request)
            ?? Chosen(sites, caller, query.Site, out var chosen)
            ?? Conditional.Json(
                DueList.Of(desk, chosen, caller, query.Days, query.Beyond, query.Most),
                context
            );
    }

    /// <summary>The sites that are meant: the one that is named, or all of whoever asks.</summary>
    /// <returns>What is wrong with it; null when nothing.</returns>
    public static IResult? Chosen(
        ServedSites sites,
        Caller caller,
        string? named,
        out IReadOnlyList<ServedSite> chosen
    )
    {
        chosen = [.. sites.Of(caller)];
        if (named is null && chosen.Count > 0)
        {
            return null;
        }

        var wrong = sites.Choose(caller, named, out var one);
        chosen = [one];
        return wrong;
    }
}
