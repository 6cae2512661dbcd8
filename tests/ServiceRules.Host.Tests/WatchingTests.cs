using System.Collections.Concurrent;
using System.Diagnostics.Metrics;

namespace ServiceRules.Host.Tests;

public sealed class WatchingTests
{
    [Fact]
    public async Task Meter_Submissions_AreCountedByWhatCameOfThem()
    {
        var counted = new ConcurrentDictionary<string, long>(StringComparer.Ordinal);
        using var listener = new MeterListener
        {
            InstrumentPublished = (instrument, heard) =>
            {
                if (instrument.Meter.Name == "ServiceRules" && instrument is Counter<long>)
                {
                    heard.EnableMeasurementEvents(instrument);
                }
            },
        };
        listener.SetMeasurementEventCallback<long>(
            (instrument, value, tags, _) =>
                counted.AddOrUpdate(
                    $"{instrument.Name} {tags[0].Value}",
                    value,
                    (_, before) => before + value
                )
        );
        listener.Start();
        await using var run = await ServiceRun.StartAsync();

        _ = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
        _ = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
        _ = await run.PostAsync("api/records", "{}"u8.ToArray());

        // Other services of this test run may be counted as well.
        Assert.True(counted["servicerules.submissions filed"] >= 1);
        Assert.True(counted["servicerules.submissions stood"] >= 1);
        Assert.True(counted["servicerules.submissions refused"] >= 1);
        Assert.True(counted["servicerules.verdicts met"] >= 1);
    }
}
