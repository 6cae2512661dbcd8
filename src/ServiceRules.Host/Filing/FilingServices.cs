using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
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
        services.AddSingleton(new AssessRecord(settings.Rules.Book, site));
        services.AddSingleton(folder.Ledger);
        // What waits is finished before the service ends.
        services.AddSingleton(_ => new GroupFiling(folder.Ledger));
        services.AddSingleton(notices?.Recipients ?? NoticeRecipients.None);
        services.AddSingleton<NoticeBell>();
        services.AddSingleton<FilingDesk>();
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
