using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Sites;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host.Inbox;

internal static class InboxServices
{
    public static IServiceCollection AddInbox(
        this IServiceCollection services,
        InboxSettings settings,
        InboxFolder folder
    )
    {
        services.AddSingleton(settings);
        services.AddSingleton(folder);
        services.AddSingleton(provider =>
        {
            var sites = provider.GetRequiredService<ServedSites>();
            var site = settings.Site is { } named ? sites.Named(named)! : sites.Home;
            return ActivatorUtilities.CreateInstance<InboxDesk>(provider, site.Desk);
        });
        services.AddSingleton<InboxRounds>();
        services.AddHealthChecks().AddCheck<InboxRounds>("inbox");
        return services.AddHostedService<InboxWatch>();
    }
}
