using System.Diagnostics;
using System.Net;

namespace ServiceRules.Host.Tests;

/// <summary>A service that is copied while it runs and put back elsewhere is the same one.</summary>
public sealed class ServiceBackupTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Backup_OfARunningService_IsRestoredWithTheKeysOfItsReports()
    {
        byte[] report;
        await using (var run = await ServiceRun.StartAsync(Place("one")))
        {
            using var filed = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
            Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
            report = await (
                await run.GetAsync("api/records/F-height-check/report")
            ).Content.ReadAsByteArrayAsync();
            Run("ledger", "backup", Place("copy"), "--ledger", Place("one/data"));
            Run("ledger", "drill", Place("copy"), "--ledger", Place("one/data"));
            Run("ledger", "verify", "--ledger", Place("one/data"));
        }

        Run(
            "ledger",
            "restore",
            Place("copy"),
            "--ledger",
            Place("two/data"),
            "--checkpoints",
            Place("one/data-checkpoints")
        );
        CopyCheckpoints();

        await using var again = await ServiceRun.StartAsync(Place("two"));

        Assert.Empty(again.Service.Remarks);
        Assert.Equal("genuine", await OutcomeAsync(again, report));
        Assert.Equal(
            report,
            await (await again.GetAsync("api/records/F-height-check/report")).Content.ReadAsByteArrayAsync()
        );
    }

    [Fact]
    public async Task Start_WhereTheKeysOfReportsAreGone_SaysSo()
    {
        await using (var run = await ServiceRun.StartAsync(Place("one")))
        {
            using var filed = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
            using var report = await run.GetAsync("api/records/F-height-check/report");
            Assert.Equal(HttpStatusCode.OK, report.StatusCode);
        }

        Directory.Delete(Place("one/data/keys"), recursive: true);

        await using var again = await ServiceRun.StartAsync(Place("one"));

        Assert.Contains(
            again.Service.Remarks,
            remark => remark.Contains("the keys that signed them", StringComparison.Ordinal)
        );
    }

    private string Place(string name) => Path.Combine(_folder, name);

    private static void Run(params string[] arguments)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [Path.Combine(AppContext.BaseDirectory, "servicerules.dll"), .. arguments]
        )
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var told = process.StandardOutput.ReadToEnd() + process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, told);
    }

    private void CopyCheckpoints()
    {
        _ = Directory.CreateDirectory(Place("two/data-checkpoints"));
        foreach (var file in Directory.EnumerateFiles(Place("one/data-checkpoints")))
        {
            File.Copy(file, Path.Combine(Place("two/data-checkpoints"), Path.GetFileName(file)));
        }
    }

    private static async Task<string?> OutcomeAsync(ServiceRun run, byte[] report)
    {
        using var content = new ByteArrayContent(report);
        content.Headers.ContentType = new("application/pdf");
        using var answer = await run.Client.PostAsync(
            new Uri("api/verifications", UriKind.Relative),
            content
        );
        var told = await ServiceRun.JsonAsync(answer);
        return told.GetProperty("standing").GetString();
    }
}
