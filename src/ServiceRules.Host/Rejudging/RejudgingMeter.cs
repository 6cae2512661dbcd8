using System.Diagnostics.Metrics;
using ServiceRules.Application.Rejudging;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Rejudging;

/// <summary>What is counted of records that this instance judged again.</summary>
internal sealed class RejudgingMeter : IDisposable
{
    private readonly Meter meter;
    private readonly Counter<long> records;

    public RejudgingMeter(IMeterFactory meters)
    {
        meter = meters.Create(ServiceMeter.Name);
        records = meter.CreateCounter<long>(
            "servicerules.rejudged",
            "{record}",
            "stored records that were judged again, by what came of them"
        );
    }

    public void Came(RejudgingCounts counts)
    {
        Add("turned", counts.Turned);
        Add("unchanged", counts.Unchanged);
        Add("passed-over", counts.Passed);
        Add("failed", counts.Failed);
    }

    public void Dispose() => meter.Dispose();

    private void Add(string outcome, long count)
    {
        if (count > 0)
        {
            records.Add(count, new KeyValuePair<string, object?>("outcome", outcome));
        }
    }
}
