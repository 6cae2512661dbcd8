using System.Net;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Tests.Sites;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Host.Tests.Exports;

/// <summary>The signed report of a period, made behind the answer.</summary>
public sealed class PeriodReportTests
{
    private const string April =
        """{ "format": "export-request/1", "what": "safe-work", "as": "pdf", "filter": { "from": "2026-04-01", "until": "2026-04-30" } }""";

    [Fact]
    public async Task Report_OfAPeriod_IsSignedKeptAndStandsInTheLogOnce()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run, "P-1", "2026-04-13");
        await FileAsync(run, "P-2", "2026-04-14");
        await FileAsync(run, "P-3", "2026-03-31");

        var place = await AskAsync(run, April);
        var done = await UntilDoneAsync(run, place);

        Assert.Equal(2, done.GetProperty("rows").GetInt64());
        using var answer = await run.GetAsync(place + "/file");
        var pdf = await answer.Content.ReadAsByteArrayAsync();
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(
            "safe-work.2026-04-01.2026-04-30.pdf",
            answer.Content.Headers.ContentDisposition!.FileName
        );
        var entry = Assert.Single(Reports(run));
        Assert.Equal("safe-work.2026-04-01.2026-04-30", entry.Entry.Subject);
        var proof = await run.TextAsync(place + "/proof");
        Assert.Contains("c2sp.org/tlog-proof", proof, StringComparison.Ordinal);
        using var sent = new MemoryStream(pdf);
        var verified = await run.Typed.VerifyAsync(sent);
        Assert.Equal("genuine", verified.Standing);
        Assert.Contains(
            verified.Points,
            point => point.Told.Contains("2 attached jobs", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Report_OfAPeriodWithoutARecord_FailsAndSaysSo()
    {
        await using var run = await ServiceRun.StartAsync();

        var place = await AskAsync(run, April);
        var failed = await UntilAsync(run, place, "failed");

        Assert.Equal(
            "no record that is filed here is of the period",
            failed.GetProperty("failure").GetString()
        );
        Assert.Empty(Reports(run));
        Assert.Equal(HttpStatusCode.NotFound, (await run.GetAsync(place + "/proof")).StatusCode);
    }

    [Theory]
    [InlineData("""{ "format": "export-request/1", "what": "safe-work", "as": "csv" }""", "/as")]
    [InlineData("""{ "format": "export-request/1", "what": "records", "as": "pdf" }""", "/as")]
    [InlineData("""{ "format": "export-request/1", "what": "safe-work", "as": "pdf" }""", "")]
    [InlineData(
        """{ "format": "export-request/1", "what": "safe-work", "as": "pdf", "filter": { "from": "2026-04-01" } }""",
        "/filter"
    )]
    [InlineData(
        """{ "format": "export-request/1", "what": "safe-work", "as": "pdf", "filter": { "from": "2026-04-01", "until": "2026-04-30", "machine": "M-02" } }""",
        "/filter"
    )]
    public async Task Request_ThatIsNoPeriod_IsRefusedWithItsPlace(string request, string pointer)
    {
        await using var run = await ServiceRun.StartAsync();

        using var answer = await run.PostAsync("api/exports", Encoding.UTF8.GetBytes(request));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            pointer,
            (await ServiceRun.JsonAsync(answer))
                .GetProperty("problems")
                .EnumerateArray()
                .Select(problem => problem.GetProperty("pointer").GetString())
        );
    }

    [Fact]
    public async Task Report_OfAnInstanceThatDiedWhileItWrote_IsMadeByTheNextAndStandsInTheLogOnce()
    {
        var place = Directory.CreateTempSubdirectory("servicerules-period-").FullName;
        try
        {
            await using (var first = await ServiceRun.StartAsync(place))
            {
                await FileAsync(first, "P-1", "2026-04-13");
                var asked = await AskAsync(first, April);
                _ = await UntilDoneAsync(first, asked);
                // What a kill leaves before the filing: the file whole, its turn begun by nobody any more, and nothing in the log.
                var store = first.Get<IExportStore>();
                var own = store.Find(asked.Split('/')[^1])!;
                var dead = own with
                {
                    Id = "dead",
                    Request = own.Request.Replace("2026-04-01", "2026-04-02", StringComparison.Ordinal),
                };
                Assert.Equal("dead", store.Ask(dead, 10)!.Id);
                Assert.True(store.Begin("dead", "dead"));
                Assert.True(store.Append("dead", "dead", 0, store.Part(own.Id, 0)!, 1));
            }

            await using var run = await ServiceRun.StartAsync(place);
            _ = await UntilDoneAsync(run, "api/exports/dead");

            var pdf = await run.BytesAsync("api/exports/dead/file");
            var digest = ContentHash.Of(pdf).ToString();
            Assert.Equal(
                digest,
                Assert
                    .Single(Reports(run), entry => entry.Entry.Subject == "safe-work.2026-04-02.2026-04-30")
                    .Entry.Content
            );
            Assert.Equal(2, Reports(run).Count);
            Assert.False(run.Get<IExportStore>().End("dead", "dead", 1, ContentHash.Of(pdf)));
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    [Fact]
    public async Task Report_OfASite_HoldsItsJobsAloneAndIsOfWhoeverAskedAlone()
    {
        var folder = Directory.CreateTempSubdirectory("servicerules-period-").FullName;
        try
        {
            await using var run = await ServiceRun.StartAsync(
                null,
                settings => TwoSites.WithSecond(settings, folder)
            );
            using var first = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.First));
            using var second = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.Second));
            using var every = run.ClientWith(run.NewKey(Roles.Officer, site: GrantedSite.Every));
            Assert.Equal(
                201,
                (await TwoSites.PostAsync(first, "api/records", TwoSites.Job("J-A1", "13"))).Status
            );
            Assert.Equal(
                201,
                (await TwoSites.PostAsync(second, "api/records", TwoSites.Job("J-B1", "13"))).Status
            );

            var (status, body) = await TwoSites.PostAsync(
                second,
                "api/exports",
                Encoding.UTF8.GetBytes(April)
            );
            Assert.True(status == 202, body);
            var id = JsonDocument.Parse(body).RootElement.GetProperty("id").GetString();
            await UntilDoneAsync(second, $"api/exports/{id}");

            Assert.Equal(200, (await TwoSites.GetAsync(second, $"api/exports/{id}/proof")).Status);
            foreach (var path in new[] { "", "/file", "/proof" })
            {
                Assert.Equal(404, (await TwoSites.GetAsync(first, $"api/exports/{id}{path}")).Status);
            }

            var ofSecond = April.Replace(
                "\"from\"",
                $"\"site\": \"{TwoSites.Second}\", \"from\"",
                StringComparison.Ordinal
            );
            Assert.Equal(
                403,
                (await TwoSites.PostAsync(first, "api/exports", Encoding.UTF8.GetBytes(ofSecond))).Status
            );
            Assert.Equal(
                400,
                (await TwoSites.PostAsync(every, "api/exports", Encoding.UTF8.GetBytes(April))).Status
            );
            Assert.Equal(
                202,
                (await TwoSites.PostAsync(every, "api/exports", Encoding.UTF8.GetBytes(ofSecond))).Status
            );
            var jobs = new PdfReportReader([])
                .Read(await second.GetByteArrayAsync(new Uri($"api/exports/{id}/file", UriKind.Relative)))
                .Attachments["jobs.json"];
            Assert.Contains("J-B1", Encoding.UTF8.GetString(jobs), StringComparison.Ordinal);
            Assert.DoesNotContain("J-A1", Encoding.UTF8.GetString(jobs), StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static List<FiledEntry> Reports(ServiceRun run) =>
        [
            .. run.Get<OpenLedger>()
                .Log.Entries(0)
                .Select(stored => EntryReading.TryRead(stored, out var entry, out _) ? entry : null)
                .OfType<FiledEntry>()
                .Where(entry => entry.Entry.Kind is EntryKind.Report),
        ];

    private static async Task<string> AskAsync(ServiceRun run, string request)
    {
        using var answer = await run.PostAsync("api/exports", Encoding.UTF8.GetBytes(request));
        Assert.True(answer.StatusCode == HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync());
        return answer.Headers.Location!.OriginalString.TrimStart('/');
    }

    private static Task<JsonElement> UntilDoneAsync(ServiceRun run, string place) =>
        UntilAsync(run, place, "done");

    private static Task<JsonElement> UntilAsync(ServiceRun run, string place, string state) =>
        UntilAsync(run.Client, place, state);

    private static Task<JsonElement> UntilDoneAsync(HttpClient client, string place) =>
        UntilAsync(client, place, "done");

    private static async Task<JsonElement> UntilAsync(HttpClient client, string place, string state)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (true)
        {
            using var told = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri(place, UriKind.Relative), enough.Token)
            );
            var now = told.RootElement.GetProperty("state").GetString();
            if (now == state)
            {
                return told.RootElement.Clone();
            }

            Assert.True(now is "queued" or "running", told.RootElement.ToString());
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
