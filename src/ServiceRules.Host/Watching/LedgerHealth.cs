using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Watching;

/// <summary>Whether the log can be read.</summary>
internal sealed class LedgerHealth(FilingDesk desk, ServiceMeter meter) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        try
        {
            var head = await desk.AskAsync(ledger => ledger.Log.Head, cancellationToken);
            meter.Grown(head);
            return HealthCheckResult.Healthy(
                string.Create(CultureInfo.InvariantCulture, $"{head?.Size ?? 0} entries")
            );
        }
        catch (LedgerStoreException trouble)
        {
            return HealthCheckResult.Unhealthy($"the store: {trouble.Trouble}");
        }
    }
}
