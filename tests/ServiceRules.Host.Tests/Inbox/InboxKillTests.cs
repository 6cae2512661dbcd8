using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Inbox;

/// <summary>The built service, killed while it files what was dropped, and started again.</summary>
public sealed class InboxKillTests : IDisposable
{
    private const int Jobs = 24;

    private static readonly TimeSpan Most = TimeSpan.FromSeconds(90);

    private readonly string folder = Directory.CreateTempSubdirectory("servicerules-kill-").FullName;

    private string Inbox => Path.Combine(folder, "inbox");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [SkippableFact]
    public async Task Serve_KilledAgainAndAgainWhileItFiles_FilesEachOnceAndLosesNone()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no such signal there");
        Directory.CreateDirectory(Inbox);
        for (var at = 0; at < Jobs; at++)
        {
            // Days on which none bears on another.
            var day = new DateOnly(2024, 1, 1).AddDays(at * 6).ToString("O", CultureInfo.InvariantCulture);
            await File.WriteAllBytesAsync(
                Path.Combine(Inbox, $"job-{at:00}.json"),
                ServiceRun.Record("height-check", ("F-height-check", $"K-{at:00}"), ("2026-04-13", day))
            );
        }

        // Killed once some more are put away than before: at a different step each time.
        for (var wanted = 3; wanted <= 9; wanted += 6)
        {
            using var service = Start();
            await UntilAsync(() => Filed() >= wanted, service);
            service.Kill();
            await service.WaitForExitAsync();
        }

        using (var last = Start())
        {
            await UntilAsync(() => Filed() == Jobs, last);
            last.Kill();
            await last.WaitForExitAsync();
        }

        Assert.Empty(Directory.EnumerateFiles(Inbox));
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(Inbox, "refused")));
        Assert.Equal(
            [".lock"],
            Directory.EnumerateFiles(Path.Combine(Inbox, ".taken")).Select(path => Path.GetFileName(path))
        );
        await using var run = await ServiceRun.StartAsync(folder);
        var records = (await run.GetJsonAsync("api/records?limit=1000&versions=all")).GetProperty("items");
        Assert.Equal(
            Enumerable.Range(0, Jobs).Select(at => $"K-{at:00}"),
            records
                .EnumerateArray()
                .Select(record => record.GetProperty("id").GetString()!)
                .Order(StringComparer.Ordinal)
        );
        Assert.All(
            Directory.EnumerateFiles(Path.Combine(Inbox, "filed"), "job-??.json"),
            file =>
            {
                using var answer = JsonDocument.Parse(File.ReadAllBytes(file + ".answer.json"));
                Assert.Equal("filed", answer.RootElement.GetProperty("outcome").GetString());
            }
        );
    }

    private static async Task UntilAsync(Func<bool> isSo, Process service)
    {
        var waited = Stopwatch.StartNew();
        while (!isSo())
        {
            Assert.False(service.HasExited, "the service ended by itself");
            Assert.True(waited.Elapsed < Most, "the service files nothing");
            await Task.Delay(5);
        }
    }

    private int Filed()
    {
        var filed = Path.Combine(Inbox, "filed");
        return Directory.Exists(filed) ? Directory.EnumerateFiles(filed, "job-??.json").Count() : 0;
    }

    private Process Start()
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "servicerules.dll"),
                "serve",
                "--data",
                Path.Combine(folder, "data"),
                "--inbox",
                Inbox,
                "--rules",
                ReferenceFiles.InRepository("rules"),
                "--port",
                "0",
            ]
        );
        return Process.Start(start)!;
    }
}
