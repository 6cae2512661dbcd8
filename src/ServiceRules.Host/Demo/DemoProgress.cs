using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using ServiceRules.Application.Demo;

namespace ServiceRules.Host.Demo;

/// <summary>How far the demo is filed.</summary>
internal sealed class DemoProgress : IHealthCheck
{
    private readonly TaskCompletionSource<DemoSummary> end = new(
        TaskCreationOptions.RunContinuationsAsynchronously
    );
    private int all = -1;
    private int filed;

    /// <summary>What the rules made of it, once all of it is filed; cancelled where it came to no end.</summary>
    public Task<DemoSummary> Summary => end.Task;

    public void Begin(int jobs) => Volatile.Write(ref all, jobs);

    public void Filed() => Interlocked.Increment(ref filed);

    public void End(DemoSummary summary) => _ = end.TrySetResult(summary);

    /// <summary>Tells whoever waits for the end that there is none; what was told before stays.</summary>
    public void BreakOff() => _ = end.TrySetCanceled();

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
