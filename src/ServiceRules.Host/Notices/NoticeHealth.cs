using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Notices;

/// <summary>How many notices wait, and how many were given up. A recipient that fails makes the service no less ready.</summary>
internal sealed class NoticeHealth(INoticeStore store) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        try
        {
            var count = store.Count();
            return Task.FromResult(
                HealthCheckResult.Healthy(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{count.Waiting} wait, {count.GivenUp} given up"
                    )
                )
            );
        }
        catch (LedgerStoreException trouble)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy($"the store: {trouble.Trouble}"));
        }
    }
}
