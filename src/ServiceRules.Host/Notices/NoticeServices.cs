using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Notices;

internal static class NoticeServices
{
    public static IServiceCollection AddNotices(
        this IServiceCollection services,
        NoticeSettings notices,
        ServiceFolder folder
    )
    {
        services.AddSingleton(notices);
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Notices);
        services.AddSingleton<WebhookDelivery>();
        services.AddSingleton<NoticeMeter>();
        services.AddSingleton<NoticeWork>();
        services.AddHealthChecks().AddCheck<NoticeHealth>("notices");
        return services.AddHostedService(provider =>
            ActivatorUtilities.CreateInstance<NoticeRounds>(provider, folder)
        );
    }
}
