using System.Diagnostics;
using System.Net;
using Microsoft.Data.Sqlite;

namespace ServiceRules.Host.Tests;

/// <summary>A content that was lost, found by a newer version that makes anew what lists are made of.</summary>
public sealed class LostContentTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("backup")]
    [InlineData("export")]
    public async Task Start_WhereAContentIsLost_NamesItAndWhatPutsItBackAndThatDoes(string copy)
    {
        await using (var run = await ServiceRun.StartAsync(_folder))
        {
            using var filed = await run.PostAsync("api/records", Job());
            Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
            Run(0, "ledger", copy, Place("copy"), "--ledger", Place("data"));
        }

        Change(
            """
            DELETE FROM content WHERE lower(hex(hash)) = (SELECT substr(record_hash, 8) FROM record_row WHERE record = 'J-1');
            UPDATE record_row SET digest = NULL, units_digest = NULL, findings_digest = NULL, shown_digest = NULL;
            UPDATE row_cover SET size = 0
            """
        );

        for (var time = 0; time < 2; time++)
        {
            var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
                RunningService.StartAsync(ServiceRun.Settings(_folder))
            );
            Assert.Contains("record `J-1`", refused.Message, StringComparison.Ordinal);
            Assert.Contains("missing, and no erasure", refused.Message, StringComparison.Ordinal);
            Assert.Contains("ledger mend --from COPY --ledger", refused.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("rows --rebuild", refused.Message, StringComparison.Ordinal);
        }

        var rebuilt = Run(1, "ledger", "rows", "--rebuild", "--ledger", Place("data"));
        Assert.Contains("record `J-1`", rebuilt, StringComparison.Ordinal);
        Assert.Contains("ledger mend --from COPY", rebuilt, StringComparison.Ordinal);
        var mended = Run(0, "ledger", "mend", "--from", Place("copy"), "--ledger", Place("data"));
        Assert.Contains("1 contents were put back, 0 are lost still.", mended, StringComparison.Ordinal);
        Run(0, "ledger", "verify", "--ledger", Place("data"));

        await using var again = await ServiceRun.StartAsync(_folder);
        using var record = await again.GetAsync("api/records/J-1");
        Assert.Equal(HttpStatusCode.OK, record.StatusCode);
        Run(2, "ledger", "mend", "--from", Place("none"), "--ledger", Place("data"));
    }

    [Fact]
    public async Task Report_WhereTheRulesOfItsAssessmentAreLost_IsNotToldAsGone()
    {
        await using var run = await ServiceRun.StartAsync(_folder);
        using var filed = await run.PostAsync("api/records", Job());
        var packs = (await ServiceRun.JsonAsync(filed))
            .GetProperty("assessment")
            .GetProperty("digests")
            .GetProperty("packs")
            .GetString()!;
        Change($"DELETE FROM content WHERE hash = x'{packs["sha256:".Length..]}'");

        using var report = await run.GetAsync("api/records/J-1/report");

        Assert.Equal(HttpStatusCode.ServiceUnavailable, report.StatusCode);
        var told = await ServiceRun.JsonAsync(report);
        Assert.EndsWith("storage", told.GetProperty("type").GetString(), StringComparison.Ordinal);
        Assert.Contains(
            "servicerules ledger mend",
            told.GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    private static byte[] Job() => ServiceRun.Record("height-check", ("F-height-check", "J-1"));

    private string Place(string name) => Path.Combine(_folder, name);

    private static string Run(int exitCode, params string[] arguments)
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
        Assert.True(process.ExitCode == exitCode, told);
        return told;
    }

    private void Change(string sql)
    {
        using var connection = new SqliteConnection(
            $"Data Source={Path.Combine(_folder, "data", "ledger", "ledger.db")};Pooling=False"
        );
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the test.
        command.CommandText = sql;
#pragma warning restore CA2100
        _ = command.ExecuteNonQuery();
    }
}
