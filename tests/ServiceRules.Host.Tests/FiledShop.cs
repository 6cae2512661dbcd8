using System.Net;

namespace ServiceRules.Host.Tests;

/// <summary>A service in which three jobs are filed, of which the last was amended.</summary>
public sealed class FiledShop : IAsyncLifetime
{
    public ServiceRun Run { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Run = await ServiceRun.StartAsync();
        await FileAsync(Job("J-1", "13"));
        await FileAsync(Job("J-2", "14", ("3.82 mm", "4.90 mm")));
        await FileAsync(Job("J-3", "15", ("3.82 mm", "3.81 mm")));
        using var amended = await Run.PostAsync(
            "api/records/J-3/amendments?by=lead-01&reason=x",
            Job("J-3", "15")
        );
        Assert.Equal(HttpStatusCode.Created, amended.StatusCode);
    }

    public async Task DisposeAsync() => await Run.DisposeAsync();

    private static byte[] Job(string id, string day, params (string, string)[] changes) =>
        ServiceRun.Record(
            "height-check",
            [("F-height-check", id), ("2026-04-13", "2026-04-" + day), .. changes]
        );

    private async Task FileAsync(byte[] record)
    {
        using var filed = await Run.PostAsync("api/records", record);
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
    }
}
