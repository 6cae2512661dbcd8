using System.Net;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;

namespace ServiceRules.Host.Tests;

/// <summary>What lists are made of, changed in the database while the service ran or while it stood.</summary>
public sealed class HeldRowsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("UPDATE record_row SET disposition = 'release'", "api/records")]
    [InlineData("UPDATE record_row SET disposition = 'release'", "api/records/J-1")]
    [InlineData("UPDATE unit_row SET disposition = 'release'", "api/units")]
    [InlineData(
        "UPDATE finding_row SET verdict = 'met' WHERE verdict = 'not-met'",
        "api/findings?verdict=met"
    )]
    [InlineData("UPDATE record_row SET day = 9000000000000000000", "api/records")]
    public async Task List_OfRowsThatWereChanged_IsNotTold(string sql, string path)
    {
        await using var run = await FiledAsync();

        Change(sql);

        using var answer = await run.GetAsync(path);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Null(answer.Headers.RetryAfter);
        var problem = await ServiceRun.JsonAsync(answer);
        Assert.Equal("/api#problem-lists-differ", problem.GetProperty("type").GetString());
        Assert.Contains(
            "servicerules ledger rows --rebuild",
            problem.GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        _ = new RebuildRows(run.Get<OpenLedger>()).Rebuild();
        using var again = await run.GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
    }

    [Fact]
    public async Task Amendment_OfARecordWhoseRowsWereChanged_IsNotStored()
    {
        await using var run = await FiledAsync();
        var size = run.Get<OpenLedger>().Head!.Size;
        Change("UPDATE record_row SET disposition = 'release'");

        using var answer = await run.PostAsync(
            "api/records/J-1/amendments?by=lead-01&reason=x",
            Job("3.81 mm")
        );

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(
            "/api#problem-lists-differ",
            (await ServiceRun.JsonAsync(answer)).GetProperty("type").GetString()
        );
        Assert.Equal(size, run.Get<OpenLedger>().Log.Head!.Size);
    }

    [Theory]
    [InlineData("UPDATE shown_row SET key = 'M-99'", "shown_row")]
    [InlineData("UPDATE unit_row SET unit = 'U-99' WHERE ordinal = 1", "unit_row")]
    public async Task Start_OnRowsThatWereChanged_IsRefusedAndNamesThem(string sql, string table)
    {
        await using (await FiledAsync())
        {
            // Filed, and stopped.
        }

        Change(sql);

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            RunningService.StartAsync(ServiceRun.Settings(_folder))
        );
        Assert.Contains("the rows of entry", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"`{table}`", refused.Message, StringComparison.Ordinal);
        Assert.Contains("ledger rows --rebuild --ledger", refused.Message, StringComparison.Ordinal);
    }

    private static byte[] Job(string value = "4.90 mm") =>
        ServiceRun.Record("height-check", ("F-height-check", "J-1"), ("3.82 mm", value));

    private async Task<ServiceRun> FiledAsync()
    {
        var run = await ServiceRun.StartAsync(_folder);
        using var filed = await run.PostAsync("api/records", Job());
        Assert.True(filed.StatusCode == HttpStatusCode.Created, await filed.Content.ReadAsStringAsync());
        return run;
    }

    private void Change(string sql)
    {
        var database = Path.Combine(_folder, "data", "ledger", "ledger.db");
        using var connection = new SqliteConnection($"Data Source={database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        Assert.True(command.ExecuteNonQuery() > 0, sql);
    }
}
