using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Keeping;

internal static class KeepingServices
{
    public static IServiceCollection AddKeeping(this IServiceCollection services, ServiceFolder folder)
    {
        services.AddSingleton(provider => new WorkingQueue(folder, provider.GetServices<IWork>()));
        services.AddSingleton<RetentionWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<RetentionWork>());
        return services.AddHostedService<RetentionStart>();
    }
}
