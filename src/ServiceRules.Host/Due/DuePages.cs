using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary>What falls due, for people.</summary>
internal static class DuePages
{
    private const int Together = 100;

    // A month, a quarter, a year.
    private static readonly int[] Spans = [DueDesk.Ahead, 90, 365];

    public static void MapDuePages(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/due", List).ExcludeFromDescription();

    private static IResult List(
        HttpContext context,
        DueDesk desk,
        ServedSites sites,
        string? within,
        string? after
    )
    {
        var caller = Caller.Known(context.User);
        if (DueApi.Chosen(sites, caller, null, out var chosen) is { } wrong)
        {
            return wrong;
        }

        // A page forgives what an interface for programs refuses.
        var span = Array.Find(
            Spans,
            days => days.ToString(System.Globalization.CultureInfo.InvariantCulture) == within
        )
            is var found
                and > 0
            ? found
            : DueDesk.Ahead;
        var answer = DueList.Of(
            desk,
            chosen,
            caller,
            span,
            after is null ? null : DuePlace.Read(after),
            Together
        );
        return new RazorComponentResult<DuePage>(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(DuePage.Told)] = answer,
                [nameof(DuePage.Within)] = span,
                [nameof(DuePage.Spans)] = Spans,
                [nameof(DuePage.ShowsSites)] = chosen.Count > 1,
            }
        );
    }
}
