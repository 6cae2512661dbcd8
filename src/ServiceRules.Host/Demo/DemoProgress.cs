using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace ServiceRules.Host.Demo;

/// <summary>How far the demo is filed.</summary>
internal sealed class DemoProgress : IHealthCheck
{
    private int all = -1;
    private int filed;

    public void Begin(int jobs) => Volatile.Write(ref all, jobs);

    public void Filed() => Interlocked.Increment(ref filed);

    public Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        var (now, of) = (Volatile.Read(ref filed), Volatile.Read(ref all));
        var told =
            of < 0
                ? "the jobs of the demo are being made"
                : string.Create(CultureInfo.InvariantCulture, $"{now} of {of} jobs filed");
        // What is there already can be asked for.
        return Task.FromResult(
            now == of ? HealthCheckResult.Healthy(told) : HealthCheckResult.Degraded(told)
        );
    }
}
