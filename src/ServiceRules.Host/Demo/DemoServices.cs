using Microsoft.Extensions.DependencyInjection;

namespace ServiceRules.Host.Demo;

internal static class DemoServices
{
    public static IServiceCollection AddDemo(this IServiceCollection services)
    {
        services.AddSingleton<DemoProgress>();
        services.AddHealthChecks().AddCheck<DemoProgress>("demo");
        return services.AddHostedService<DemoFiling>();
    }
}
