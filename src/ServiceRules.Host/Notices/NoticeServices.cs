using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Notices;

internal static class NoticeServices
{
    /// <summary>What is kept of notices is there also where nobody is told any more.</summary>
    public static IServiceCollection AddKeptNotices(this IServiceCollection services, ServiceFolder folder)
    {
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Notices);
        return services.AddSingleton(provider => new NoticeDesk(
            folder.Notices,
            folder.Ledger.Key.Name,
            provider.GetRequiredService<TimeProvider>()
        ));
    }

    public static IServiceCollection AddNotices(this IServiceCollection services, NoticeSettings notices)
    {
        services.AddSingleton(notices);
        services.AddSingleton<WebhookDelivery>();
        services.AddSingleton<NoticeMeter>();
        services.AddSingleton<NoticeWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<NoticeWork>());
        services.AddHealthChecks().AddCheck<NoticeHealth>("notices");
        return services.AddSingleton<IOwedWork, NoticesOwed>();
    }
}
