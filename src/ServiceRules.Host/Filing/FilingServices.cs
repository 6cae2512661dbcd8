using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Verifying;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Filing;

internal static class FilingServices
{
    public static IServiceCollection AddFiling(
        this IServiceCollection services,
        ServiceSettings settings,
        ServiceFolder folder,
        NoticeSettings? notices
    )
    {
        services.AddSingleton(settings);
        services.AddSingleton(settings.Clock);
        services.AddSingleton<ServiceMeter>();
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Rules);
        services.AddSingleton(_ => folder.Waivers);
        services.AddSingleton(provider => provider.GetRequiredService<ServedSites>().Home.Rules);
        services.AddSingleton(folder.Ledger);
        // What waits is finished before the service ends.
        services.AddSingleton(_ => new GroupFiling(folder.Ledger));
        services.AddSingleton(notices?.Recipients ?? NoticeRecipients.None);
        services.AddSingleton<NoticeBell>();
        services.AddSingleton(provider =>
            SitesMaking.Make(
                settings,
                folder,
                provider.GetRequiredService<GroupFiling>(),
                provider.GetRequiredService<NoticeRecipients>(),
                provider.GetRequiredService<NoticeBell>(),
                provider.GetRequiredService<ServiceMeter>()
            )
        );
        services.AddSingleton<StoreRules>();
        services.AddSingleton<ActivateRules>();
        services.AddSingleton(provider => new PackDesk(
            provider.GetRequiredService<ActiveRules>(),
            folder,
            settings
        ));
        services.AddSingleton<VerificationDesk>();
        return services.AddSingleton(provider => new ReportDesks(
            folder,
            provider.GetRequiredService<ServedSites>().Home.Name,
            settings.Clock,
            provider.GetRequiredService<ILogger<ReportDesk>>()
        ));
    }
}
