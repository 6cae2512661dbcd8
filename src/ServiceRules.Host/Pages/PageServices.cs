using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>Pages for people: made here, whole, without script and without anything from elsewhere.</summary>
internal static class PageServices
{
    private const string Style = "style.css";
    private const string Icon = "icon.svg";

    public static IServiceCollection AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents();
        services.AddSingleton<RulesShown>();
        return services;
    }

    public static void MapPages(this WebApplication app)
    {
        var style = Embedded(Style);
        app.MapGet("/" + Style, () => Conditional.Of(style, "text/css")).ExcludeFromDescription();
        var icon = Embedded(Icon);
        app.MapGet("/" + Icon, () => Conditional.Of(icon, "image/svg+xml")).ExcludeFromDescription();
        app.MapGet(
                "/",
                (HttpContext context, ServedSites sites) =>
                    new RazorComponentResult<HomePage>(
                        new Dictionary<string, object?>
                        {
                            [nameof(HomePage.Site)] = sites
                                .Of(Caller.Known(context.User))
                                .Select(site => site.Name)
                                .DefaultIfEmpty("ServiceRules")
                                .Aggregate((one, other) => $"{one}, {other}"),
                        }
                    )
            )
            .ExcludeFromDescription();
    }

    private static byte[] Embedded(string name)
    {
        using var stream = typeof(PageServices).Assembly.GetManifestResourceStream(name)!;
        using var held = new MemoryStream();
        stream.CopyTo(held);
        return held.ToArray();
    }
}
