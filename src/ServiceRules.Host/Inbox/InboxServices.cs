using Microsoft.Extensions.DependencyInjection;
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
        services.AddSingleton<InboxDesk>();
        services.AddSingleton<InboxRounds>();
        services.AddHealthChecks().AddCheck<InboxRounds>("inbox");
        return services.AddHostedService<InboxWatch>();
    }
}
