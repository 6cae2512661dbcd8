using System.Net;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Bench;

/// <summary>A service in the spring of the demo's second season, in which one job at M-02 is filed.</summary>
public sealed class SpringShop : IAsyncLifetime
{
    public ServiceRun Run { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Clock = new MovedClock
                {
                    Ahead =
                        new DateTimeOffset(2026, 4, 20, 9, 0, 0, TimeSpan.Zero)
                        - TimeProvider.System.GetUtcNow(),
                },
            }
        );
        using var filed = await Run.PostAsync("api/records", ServiceRun.Record("height-check"));
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
    }

    public async Task DisposeAsync() => await Run.DisposeAsync();
}
