using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Template;
using Microsoft.Extensions.DependencyInjection;

namespace ServiceRules.Host.Problems;

/// <summary>
/// Which kinds of body are taken at an address. Whoever sends another is turned away before the route is reached, so it is looked up.
/// </summary>
internal static class TakenKinds
{
    public static string At(HttpContext context)
    {
        var kinds = context
            .RequestServices.GetRequiredService<EndpointDataSource>()
            .Endpoints.OfType<RouteEndpoint>()
            .Where(route => IsAt(route, context.Request))
            .SelectMany(route => route.Metadata.GetOrderedMetadata<IAcceptsMetadata>())
            .SelectMany(taken => taken.ContentTypes)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToList();
        return kinds.Count == 0 ? "what /api lists" : string.Join(" or ", kinds);
    }

    private static bool IsAt(RouteEndpoint route, HttpRequest request) =>
        route.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods.Contains(request.Method) != false
        && new TemplateMatcher(new RouteTemplate(route.RoutePattern), []).TryMatch(request.Path, []);
}
