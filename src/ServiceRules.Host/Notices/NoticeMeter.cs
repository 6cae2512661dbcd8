using System.Diagnostics.Metrics;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Notices;

/// <summary>What is counted of notices.</summary>
internal sealed class NoticeMeter : IDisposable
{
    private readonly Meter meter;
    private readonly Counter<long> attempts;
    private readonly TimeProvider clock;
    private NoticeCount stands = new(0, 0, null);

    public NoticeMeter(IMeterFactory meters, TimeProvider clock)
    {
        this.clock = clock;
        meter = meters.Create(ServiceMeter.Name);
        attempts = meter.CreateCounter<long>(
            "servicerules.notices",
            "{attempt}",
            "attempts to deliver a notice, by what came of them"
        );
        _ = meter.CreateObservableGauge(
            "servicerules.notices.waiting",
            () => Volatile.Read(ref stands).Waiting,
            "{notice}",
            "notices that are still to be delivered"
        );
        _ = meter.CreateObservableGauge(
            "servicerules.notices.age",
            () => Age().TotalSeconds,
            "s",
            "for how long the oldest of them waits"
        );
    }

    public void Came(string outcome) =>
        attempts.Add(1, new KeyValuePair<string, object?>("outcome", outcome));

    public void Stands(NoticeCount count) => Volatile.Write(ref stands, count);

    public void Dispose() => meter.Dispose();

    private TimeSpan Age() =>
        Volatile.Read(ref stands).Oldest is { } oldest ? clock.GetUtcNow() - oldest : TimeSpan.Zero;
}
