using Microsoft.Extensions.Diagnostics.HealthChecks;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Sites;

/// <summary>Whether the installation is still what this instance was started for: of one site, or of several.</summary>
internal sealed class SitesHealth(ServedSites sites, IAccountStore accounts) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        try
        {
            return Task.FromResult(
                sites.AreSeveral || accounts.Sites().IsEmpty
                    ? HealthCheckResult.Healthy()
                    : HealthCheckResult.Unhealthy(
                        "the installation became one of several sites; this instance has to be started again"
                    )
            );
        }
        catch (LedgerStoreException trouble)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy($"the store: {trouble.Trouble}"));
        }
    }
}
