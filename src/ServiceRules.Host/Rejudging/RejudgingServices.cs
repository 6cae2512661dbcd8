using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Rejudging;

internal static class RejudgingServices
{
    public static IServiceCollection AddRejudging(this IServiceCollection services, ServiceFolder folder)
    {
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Rejudgings);
        services.AddSingleton<BeginRejudging>();
        services.AddSingleton<RejudgingMeter>();
        services.AddSingleton(provider =>
        {
            var log = provider.GetRequiredService<ILogger<RejudgingWork>>();
            return new RejudgePage(
                provider.GetRequiredService<OpenLedger>(),
                provider.GetRequiredService<GroupFiling>(),
                folder.Rejudgings,
                provider.GetRequiredService<ActiveRules>(),
                provider.GetRequiredService<NoticeRecipients>(),
                provider.GetRequiredService<ServedSites>().AreSeveral,
                (entry, defect) => RejudgingWork.NotJudged(log, entry, defect)
            );
        });
        services.AddSingleton<RejudgingWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<RejudgingWork>());
        return services.AddSingleton<IOwedWork, RejudgingsOwed>();
    }
}
