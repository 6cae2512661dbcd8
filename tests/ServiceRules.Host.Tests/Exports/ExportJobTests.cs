using System.Net;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Exporting;
using ServiceRules.Host.Exports;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Exports;

/// <summary>Lists as files that are written behind the answer.</summary>
public sealed class ExportJobTests
{
    [Theory]
    [InlineData("records", "csv", "records.csv")]
    [InlineData("units", "jsonl", "units.jsonl")]
    [InlineData("findings", "csv", "findings.csv")]
    [InlineData("documents", "jsonl", "documents.jsonl")]
    public async Task Export_AskedFor_IsWhatTheListIsOnTheRequestItself(string what, string form, string list)
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run, "N-1", "2026-04-13");
        await FileAsync(run, "N-2", "2026-03-13");

        var (place, asked) = await AskAsync(run, Request(what, form));
        var done = await UntilDoneAsync(run, place);

        Assert.Equal($"api/exports/{asked.GetProperty("id").GetString()}", place);
        Assert.InRange(done.GetProperty("rows").GetInt64(), 2, 1000);
        using var answer = await run.GetAsync(done.GetProperty("file").GetString()!.TrimStart('/'));
        var file = await answer.Content.ReadAsByteArrayAsync();
        Assert.Equal(await run.BytesAsync($"api/exports/{list}"), file);
        Assert.Equal(file.Length, done.GetProperty("bytes").GetInt64());
        Assert.Equal(list, answer.Content.Headers.ContentDisposition!.FileName);
        using var again = new HttpRequestMessage(HttpMethod.Get, place + "/file");
        again.Headers.IfNoneMatch.Add(answer.Headers.ETag!);
        using var same = await run.Client.SendAsync(again);
        Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);
    }

    [Fact]
    public async Task Export_WithAFilter_HoldsWhatItLetsThrough()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run, "N-1", "2026-04-13");
        await FileAsync(run, "N-2", "2026-03-13");

        var (place, _) = await AskAsync(run, Request("records", "jsonl", """{ "until": "2026-03-31" }"""));
        _ = await UntilDoneAsync(run, place);

        var line = Assert.Single(
            (await run.TextAsync(place + "/file")).Split('\n', StringSplitOptions.RemoveEmptyEntries)
        );
        Assert.Contains("\"N-2\"", line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "format": "export-request/1", "what": "records" }""", "")]
    [InlineData("""{ "format": "export-request/1", "what": "recrods", "as": "csv" }""", "/what")]
    [InlineData("""{ "format": "export-request/1", "what": "documents", "as": "csv" }""", "/as")]
    [InlineData(
        """{ "format": "export-request/1", "what": "records", "as": "csv", "filter": { "from": "1st of May" } }""",
        "/filter/from"
    )]
    [InlineData(
        """{ "format": "export-request/1", "what": "records", "as": "csv", "filter": { "verdict": "met" } }""",
        "/filter"
    )]
    [InlineData(
        """{ "format": "export-request/1", "what": "records", "as": "csv", "filter": { "latestOnly": true } }""",
        "/filter"
    )]
    [InlineData(
        """{ "format": "export-request/1", "what": "units", "as": "csv", "filter": { "disposition": "going" } }""",
        "/filter/disposition"
    )]
    public async Task Request_ThatCannotBe_IsRefusedWithItsPlaceAndNothingIsKept(
        string request,
        string pointer
    )
    {
        await using var run = await ServiceRun.StartAsync();

        using var answer = await run.PostAsync("api/exports", Encoding.UTF8.GetBytes(request));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var problems = (await ServiceRun.JsonAsync(answer)).GetProperty("problems").EnumerateArray();
        Assert.Contains(pointer, problems.Select(problem => problem.GetProperty("pointer").GetString()));
        Assert.Empty(run.Get<IExportStore>().Kept(unfinishedOnly: false));
    }

    [Fact]
    public async Task Export_OfSomebodyElse_IsNotThere()
    {
        await using var run = await ServiceRun.StartAsync();
        var (place, _) = await AskAsync(run, Request("records", "csv"));
        _ = await UntilDoneAsync(run, place);
        using var other = run.ClientWith(run.NewKey(Roles.Lead));

        foreach (var path in new[] { place, place + "/file" })
        {
            using var answer = await other.GetAsync(new Uri(path, UriKind.Relative));
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Exports_OfOneCaller_AreTenAtMost()
    {
        await using var run = await ServiceRun.StartAsync();
        for (var number = 0; number < ExportDesk.MostOfOne; number++)
        {
            _ = await AskAsync(run, Request("records", "csv", $$"""{ "machine": "M-{{number}}" }"""));
        }

        using var answer = await run.PostAsync("api/exports", Request("units", "csv"));

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.StatusCode);
    }

    [Fact]
    public async Task Export_OfAnInstanceThatDiedWhileItWrote_IsWrittenByTheNextFromTheStart()
    {
        var place = Directory.CreateTempSubdirectory("servicerules-export-").FullName;
        try
        {
            string id;
            await using (var first = await ServiceRun.StartAsync(place))
            {
                await FileAsync(first, "N-1", "2026-04-13");
                // What a kill leaves: a part, and a turn that nobody has any more.
                var store = first.Get<IExportStore>();
                var by = "key:" + first.Get<IAccountStore>().Keys().Single().Id;
                var at = TimeProvider.System.GetUtcNow();
                var (_, own) = await AskAsync(first, Request("units", "csv"));
                var site = store.Find(own.GetProperty("id").GetString()!)!.Site;
                id = store
                    .Ask(
                        new("dead", by, Encoding.UTF8.GetString(Request("records", "csv")), at, at.AddDays(1))
                        {
                            Site = site,
                        },
                        10
                    )!
                    .Id;
                Assert.True(store.Begin(id, "dead"));
                Assert.True(store.Append(id, "dead", 0, new byte[] { 1, 2, 3 }, 1));
            }

            await using var run = await ServiceRun.StartAsync(place);
            _ = await UntilDoneAsync(run, $"api/exports/{id}");

            Assert.Equal(
                await run.BytesAsync("api/exports/records.csv"),
                await run.BytesAsync($"api/exports/{id}/file")
            );
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    [Fact]
    public async Task Export_AfterADay_IsRemoved()
    {
        var clock = new MovedClock();
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Clock = clock,
            }
        );
        var (place, asked) = await AskAsync(run, Request("records", "csv"));
        _ = await UntilDoneAsync(run, place);
        var work = run.Get<ExportWork>();
        var id = asked.GetProperty("id").GetString()!;
        Assert.InRange(
            (await work.DoAsync(id, CancellationToken.None))!.Value,
            TimeSpan.FromHours(23),
            TimeSpan.FromHours(24)
        );

        clock.Ahead = TimeSpan.FromDays(1);
        // The key of the test ends with the day as well.
        Assert.Null(await work.DoAsync(id, CancellationToken.None));

        Assert.Null(run.Get<IExportStore>().Find(id));
        Assert.Null(run.Get<IExportStore>().Part(id, 0));
    }

    [Fact]
    public async Task Report_OfWhatIsFiled_IsMadeAheadWhereTheServiceIsToldSo()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                ReportsAhead = true,
            }
        );
        // The first round marks where it begins.
        await UntilAsync(() => run.Get<Application.Working.IWorkMarks>().Find("report") is not null);
        await FileAsync(run, "N-1", "2026-04-13");

        // A record, its assessment, its report, and what was done to keys.
        await UntilAsync(() =>
            run.Get<Application.Ledger.OpenLedger>()
                .Log.Entries(0)
                .Any(entry =>
                    Encoding.UTF8.GetString(entry.Bytes.Span).Contains("\"report\"", StringComparison.Ordinal)
                )
        );
    }

    private static byte[] Request(string what, string form, string? filter = null) =>
        Encoding.UTF8.GetBytes(
            $$"""{ "format": "export-request/1", "what": "{{what}}", "as": "{{form}}"{{(filter is null ? "" : ", \"filter\": " + filter)}} }"""
        );

    private static async Task<(string Place, JsonElement Told)> AskAsync(ServiceRun run, byte[] request)
    {
        using var answer = await run.PostAsync("api/exports", request);
        Assert.Equal(HttpStatusCode.Accepted, answer.StatusCode);
        return (answer.Headers.Location!.OriginalString.TrimStart('/'), await ServiceRun.JsonAsync(answer));
    }

    private static async Task<JsonElement> UntilDoneAsync(ServiceRun run, string place)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (true)
        {
            var told = await run.GetJsonAsync(place);
            switch (told.GetProperty("state").GetString())
            {
                case "done":
                    return told;
                case "failed":
                    Assert.Fail(told.ToString());
                    break;
            }

            await Task.Delay(50, enough.Token);
        }
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (!isSo())
        {
            await Task.Delay(50, enough.Token);
        }
    }

    private static async Task FileAsync(ServiceRun run, string id, string day)
    {
        using var filed = await run.PostAsync(
            "api/records",
            ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", day))
        );
        Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
    }
}
