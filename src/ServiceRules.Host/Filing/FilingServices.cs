using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Setup;
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
        var site = settings.Rules.Site!;
        services.AddSingleton(settings);
        services.AddSingleton(settings.Clock);
        services.AddSingleton(site);
        services.AddSingleton(settings.Rules.Library);
        services.AddSingleton<ServiceMeter>();
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Rules);
        services.AddSingleton(new ActiveRules(folder.Rules, site));
        services.AddSingleton(folder.Ledger);
        // What waits is finished before the service ends.
        services.AddSingleton(_ => new GroupFiling(folder.Ledger));
        services.AddSingleton(notices?.Recipients ?? NoticeRecipients.None);
        services.AddSingleton<NoticeBell>();
        services.AddSingleton<FilingDesk>();
        services.AddSingleton<SubmittingNow>();
        services.AddSingleton<StoreRules>();
        services.AddSingleton<ActivateRules>();
        services.AddSingleton(provider => new PackDesk(
            provider.GetRequiredService<ActiveRules>(),
            folder,
            settings
        ));
        services.AddSingleton<VerificationDesk>();
        return services.AddSingleton(provider => new ReportDesk(
            folder.Ledger,
            folder.Keys,
            site.Name,
            settings.Clock,
            provider.GetRequiredService<ILogger<ReportDesk>>()
        ));
    }
}
