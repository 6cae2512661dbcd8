using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Watching;

/// <summary>Whether the log can be read.</summary>
internal sealed class LedgerHealth(OpenLedger ledger, ServiceMeter meter) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        try
        {
            var head = ledger.Log.Head;
            meter.Grown(head);
            return Task.FromResult(
                HealthCheckResult.Healthy(
                    string.Create(CultureInfo.InvariantCulture, $"{head?.Size ?? 0} entries")
                )
            );
        }
        catch (LedgerStoreException trouble)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy($"the store: {trouble.Trouble}"));
        }
    }
}
