using System.Net;
using System.Net.Sockets;

namespace ServiceRules.Host.Tests;

public sealed class StartTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("0.0.0.0")]
    [InlineData("::")]
    [InlineData("192.0.2.1")]
    public async Task StartAsync_AddressThatOthersReach_IsRefusedAndNothingIsMade(string address)
    {
        var settings = ServiceRun.Settings(_folder) with { Address = IPAddress.Parse(address) };

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            RunningService.StartAsync(settings)
        );

        Assert.Contains("loopback", refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(settings.DataFolder));
    }

    [Fact]
    public async Task StartAsync_SurroundingsThatOpenAnotherDoor_ListensOnLoopbackAlone()
    {
        // What other hosts would take from the environment: a service without accounts must not.
        Environment.SetEnvironmentVariable("ASPNETCORE_URLS", "http://0.0.0.0:0");
        Environment.SetEnvironmentVariable("Kestrel__Endpoints__More__Url", "http://0.0.0.0:0");
        try
        {
            await using var run = await ServiceRun.StartAsync(_folder);

            Assert.Equal("127.0.0.1", run.Service.Address.Host);
            Assert.Single(run.Service.Addresses);
        }
        finally
        {
            Environment.SetEnvironmentVariable("ASPNETCORE_URLS", null);
            Environment.SetEnvironmentVariable("Kestrel__Endpoints__More__Url", null);
        }
    }

    [Fact]
    public async Task StartAsync_PortThatIsTaken_IsRefusedInPlainWords()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var settings = ServiceRun.Settings(_folder) with { Port = ((IPEndPoint)taken.LocalEndpoint).Port };

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            RunningService.StartAsync(settings)
        );

        Assert.Contains("--port", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task StartAsync_DataFolderThatOthersWriteTo_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "modes of files are those of Unix");
        var settings = ServiceRun.Settings(_folder);
        Directory.CreateDirectory(settings.DataFolder);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(settings.DataFolder, (UnixFileMode)0b111_111_111);
        }

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            RunningService.StartAsync(settings)
        );

        Assert.Contains("chmod 700", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartAsync_LedgerGoneAndItsCheckpointsThere_IsRefusedAndBeginsNone()
    {
        await using (var run = await ServiceRun.StartAsync(_folder))
        {
            _ = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
        }

        var ledger = Path.Combine(_folder, "data", "ledger");
        Directory.Delete(ledger, recursive: true);

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            RunningService.StartAsync(ServiceRun.Settings(_folder))
        );

        Assert.Contains("keeps checkpoints", refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(ledger));
    }

    [Fact]
    public async Task StartAsync_Again_ServesWhatWasFiledBefore()
    {
        await using (var run = await ServiceRun.StartAsync(_folder))
        {
            Assert.Equal(
                HttpStatusCode.Created,
                (await run.PostAsync("api/records", ServiceRun.Record("height-check"))).StatusCode
            );
        }

        await using var again = await ServiceRun.StartAsync(_folder);

        Assert.Equal(
            HttpStatusCode.OK,
            (await again.PostAsync("api/records", ServiceRun.Record("height-check"))).StatusCode
        );
        var record = await again.GetJsonAsync("api/records/F-height-check");
        Assert.Equal("F-height-check", record.GetProperty("record").GetProperty("id").GetString());
    }

    [Fact]
    public async Task DisposeAsync_RequestUnderWay_EndsWithItsAnswer()
    {
        await using var run = await ServiceRun.StartAsync(_folder);
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, run.Service.Address.Port);
        var body = ServiceRun.Record("height-check");
        var stream = client.GetStream();
        await stream.WriteAsync(
            System.Text.Encoding.ASCII.GetBytes(
                $"POST /api/records HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer {run.Key}\r\nContent-Type: application/json\r\nContent-Length: {body.Length}\r\n\r\n"
            )
        );
        await stream.WriteAsync(body.AsMemory(0, 100));
        // The server has seen the request once another one that came later is answered.
        _ = await run.GetJsonAsync("health/ready");
        await Task.Delay(200);

        var stopping = run.DisposeAsync().AsTask();
        await Task.Delay(200);
        await stream.WriteAsync(body.AsMemory(100));
        var block = new byte[64];
        var count = await stream.ReadAsync(block);
        await stopping;

        Assert.StartsWith(
            "HTTP/1.1 201",
            System.Text.Encoding.ASCII.GetString(block, 0, count),
            StringComparison.Ordinal
        );
    }
}
