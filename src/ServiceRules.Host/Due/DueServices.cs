using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Working;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Due;

internal static class DueServices
{
    public static IServiceCollection AddDue(this IServiceCollection services, ServiceFolder folder)
    {
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Due);
        services.AddSingleton(provider => new DueDesk(
            folder.Ledger,
            folder.Due,
            provider.GetRequiredService<NoticeRecipients>(),
            folder.SecretFor("what falls due, told once"),
            provider.GetRequiredService<TimeProvider>(),
            provider.GetRequiredService<NoticeBell>()
        ));
        services.AddSingleton<DueWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<DueWork>());
        return services.AddSingleton<IOwedWork, DueOwed>();
    }
}
