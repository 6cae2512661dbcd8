using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/sites</c>: the sites of whoever asks.</summary>
internal static class SitesApi
{
    public static void MapSites(this IEndpointRouteBuilder routes) =>
        routes
            .MapGet(
                "/api/sites",
                (HttpContext context, ServedSites sites) =>
                    Conditional.Json(
                        new SitesAnswer([
                            .. sites
                                .Of(Caller.Known(context.User))
                                .Select(site => new ToldSite(site.Name, site.Registers.Zone.Name)),
                        ]),
                        context
                    )
            )
            .WithTags("registers")
            .WithName("listSites")
            .WithSummary("The sites of whoever asks, by the names that `site` takes elsewhere.")
            .Produces<SitesAnswer>()
            .Complains();
}
