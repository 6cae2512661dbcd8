using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Exports;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Working;

internal static class WorkServices
{
    public static IServiceCollection AddWork(
        this IServiceCollection services,
        ServiceSettings settings,
        ServiceFolder folder
    )
    {
        // Made elsewhere, and closed there.
        services.AddSingleton(_ => folder.Exports);
        services.AddSingleton(_ => folder.WorkMarks);
        services.AddSingleton(provider => new WorkingQueue(
            folder,
            provider.GetServices<IWork>(),
            provider.GetRequiredService<ILogger<LoggedWork>>()
        ));
        services.AddSingleton<PeriodReports>();
        services.AddSingleton<ExportWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<ExportWork>());
        services.AddSingleton<ExportDesk>();
        services.AddSingleton<IOwedWork, ExportsOwed>();
        if (settings.ReportsAhead)
        {
            services.AddSingleton<ReportWork>();
            services.AddSingleton<IWork>(provider => provider.GetRequiredService<ReportWork>());
            services.AddSingleton<IOwedWork, ReportsOwed>();
        }

        return services.AddHostedService<WorkRounds>();
    }
}
