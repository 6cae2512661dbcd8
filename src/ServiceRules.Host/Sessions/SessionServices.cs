using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Sessions;

/// <summary>What protects what browsers keep: the same for every instance on one database.</summary>
internal static class SessionServices
{
    // Else it would be the place where the program lies, and instances in two places would not read each other's sessions.
    private const string Discriminator = "servicerules";

    public static IServiceCollection AddSessions(this IServiceCollection services, ServiceFolder folder)
    {
        services.AddDataProtection().SetApplicationName(Discriminator);
        services.AddSingleton(provider =>
            ActivatorUtilities.CreateInstance<SealedKeys>(
                provider,
                folder.SealedKeys,
                folder.SecretFor(SealedKeys.Use)
            )
        );
        return services.AddSingleton<IConfigureOptions<KeyManagementOptions>>(
            provider => new ConfigureOptions<KeyManagementOptions>(options =>
                options.XmlRepository = provider.GetRequiredService<SealedKeys>()
            )
        );
    }
}
