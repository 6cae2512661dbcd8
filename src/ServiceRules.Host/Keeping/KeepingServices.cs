using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Working;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Keeping;

internal static class KeepingServices
{
    public static IServiceCollection AddKeeping(this IServiceCollection services)
    {
        services.AddSingleton<RetentionWork>();
        services.AddSingleton<IWork>(provider => provider.GetRequiredService<RetentionWork>());
        return services.AddSingleton<IOwedWork, RetentionOwed>();
    }
}
