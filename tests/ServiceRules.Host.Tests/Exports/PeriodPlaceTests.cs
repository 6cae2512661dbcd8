using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Exports;

/// <summary>Where the signed report of a period stands in the log of the service, and whether it still tells its days.</summary>
public sealed class PeriodPlaceTests
{
    private const string April =
        """{ "format": "export-request/1", "what": "safe-work", "as": "pdf", "filter": { "from": "2026-04-01", "until": "2026-04-30" } }""";

    private static byte[] Job(string id, string day) =>
        ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", day));

    [Fact]
    public async Task Report_IsPlacedAndSupersededOnceARecordOfItsDaysIsFiled()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run.Client, Job("P-1", "2026-04-13"));
        var report = await ReportAsync(run.Client);

        var here = (await VerifiedAsync(run.Client, report)).GetProperty("here");

        Assert.False(here.TryGetProperty("record", out _));
        var period = here.GetProperty("period");
        Assert.Equal("2026-04-01", period.GetProperty("from").GetString());
        Assert.Equal("2026-04-30", period.GetProperty("until").GetString());
        Assert.Equal(1, period.GetProperty("sites").GetArrayLength());
        Assert.False(here.TryGetProperty("supersededBy", out _));
        var entry = await run.GetJsonAsync($"api/ledger/entries/{here.GetProperty("entry").GetInt64()}");
        Assert.Equal("safe-work.2026-04-01.2026-04-30", entry.GetProperty("subject").GetString());
        var page = await PageAsync(run.Client, report);
        Assert.Contains("the report of 2026-04-01 to 2026-04-30 at", page, StringComparison.Ordinal);
        Assert.DoesNotContain("superseded", page, StringComparison.Ordinal);

        await FileAsync(run.Client, Job("P-2", "2026-06-20"));
        Assert.Null(await SupersededByAsync(run.Client, report));

        var filed = await FileAsync(run.Client, Job("P-3", "2026-04-20"));
        Assert.True(await SupersededByAsync(run.Client, report) >= filed);
        page = await PageAsync(run.Client, report);
        Assert.Contains("Genuine, and superseded", page, StringComparison.Ordinal);
        Assert.Contains("no longer tells what is known of these days", page, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task Report_CountsItsJobsByHowTheyWereSentAndSaysNoMore()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run.Client, Job("P-1", "2026-04-13"));
        await FileAsync(run.Client, Job("P-2", "2026-04-20"));

        var report = await ReportAsync(run.Client);

        using var product = new Product();
        var told = Tool.Require("pdftotext")
            .Run("-raw", product.Write("report.pdf", report), "-")
            .StandardOutput.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var words = string.Join(' ', told);
        Assert.Contains(
            "of the jobs 2 filed over the service with keys of programs, as their entries in the log say;",
            words,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("no sign-in was checked", words, StringComparison.Ordinal);
        Assert.Equal(
            "genuine",
            (await VerifiedAsync(run.Client, report)).GetProperty("standing").GetString()
        );
    }

    [Fact]
    public async Task Report_IsSupersededOnceOneOfItsRecordsWasMovedToAnotherDay()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run.Client, Job("P-1", "2026-04-13"));
        await FileAsync(run.Client, Job("P-2", "2026-04-20"));
        var report = await ReportAsync(run.Client);

        var amended = await FileAsync(
            run.Client,
            Job("P-1", "2026-06-13"),
            "api/records/P-1/amendments?by=lead-01&reason=the%20month%20was%20wrong"
        );

        Assert.True(await SupersededByAsync(run.Client, report) >= amended);
    }

    [Fact]
    public async Task Report_ThatIsNotFiledHere_IsPlacedNowhere()
    {
        await using var run = await ServiceRun.StartAsync();
        await FileAsync(run.Client, Job("P-1", "2026-04-13"));
        var report = await ReportAsync(run.Client);
        await using var other = await ServiceRun.StartAsync();

        var verified = await VerifiedAsync(other.Client, report);

        Assert.Equal("signer-not-trusted", verified.GetProperty("standing").GetString());
        Assert.False(verified.TryGetProperty("here", out _));
        Assert.Contains(
            "This very file is not filed here.",
            await PageAsync(other.Client, report),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Report_OfAnotherSite_IsGenuineAndPlacedForThoseOfItsSiteAlone()
    {
        var folder = Directory.CreateTempSubdirectory("servicerules-place-").FullName;
        try
        {
            await using var run = await ServiceRun.StartAsync(
                null,
                settings => TwoSites.WithSecond(settings, folder)
            );
            using var first = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.First));
            using var second = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.Second));
            using var every = run.ClientWith(run.NewKey(Roles.Officer, site: GrantedSite.Every));
            await FileAsync(first, TwoSites.Job("J-A1", "13"));
            await FileAsync(second, TwoSites.Job("J-B1", "13"));
            var report = await ReportAsync(second);

            // Whichever site signs first, the others can.
            Assert.Equal(200, (await TwoSites.GetAsync(first, "api/certificate")).Status);
            Assert.False((await VerifiedAsync(first, report)).TryGetProperty("here", out _));
            Assert.Null(await SupersededByAsync(second, report));
            await FileAsync(first, TwoSites.Job("J-A2", "14"));
            Assert.Null(await SupersededByAsync(every, report));
            await FileAsync(second, TwoSites.Job("J-B2", "14"));
            Assert.NotNull(await SupersededByAsync(every, report));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<long?> SupersededByAsync(HttpClient client, byte[] report)
    {
        var verified = await VerifiedAsync(client, report);
        Assert.Equal("genuine", verified.GetProperty("standing").GetString());
        return verified.GetProperty("here").TryGetProperty("supersededBy", out var newer)
            ? newer.GetInt64()
            : null;
    }

    private static async Task<JsonElement> VerifiedAsync(HttpClient client, byte[] report)
    {
        using var content = new ByteArrayContent(report);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/pdf");
        using var answer = await client.PostAsync(new Uri("api/verifications", UriKind.Relative), content);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await ServiceRun.JsonAsync(answer);
    }

    private static async Task<string> PageAsync(HttpClient client, byte[] report)
    {
        using var form = new MultipartFormDataContent();
        using var part = new ByteArrayContent(report);
        form.Add(part, "report", "report.pdf");
        using var answer = await client.PostAsync(new Uri("verify", UriKind.Relative), form);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
    }

    /// <summary>Files a record, and gives the place of its entry.</summary>
    private static async Task<long> FileAsync(HttpClient client, byte[] record, string path = "api/records")
    {
        var (status, body) = await TwoSites.PostAsync(client, path, record);
        Assert.True(status == 201, body);
        using var answer = JsonDocument.Parse(body);
        return answer.RootElement.GetProperty("record").GetProperty("index").GetInt64();
    }

    private static async Task<byte[]> ReportAsync(HttpClient client)
    {
        var (status, body) = await TwoSites.PostAsync(client, "api/exports", Encoding.UTF8.GetBytes(April));
        Assert.True(status == 202, body);
        using var asked = JsonDocument.Parse(body);
        var place = $"api/exports/{asked.RootElement.GetProperty("id").GetString()}";
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (true)
        {
            using var told = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri(place, UriKind.Relative), enough.Token)
            );
            var state = told.RootElement.GetProperty("state").GetString();
            if (state == "done")
            {
                return await client.GetByteArrayAsync(
                    new Uri(place + "/file", UriKind.Relative),
                    enough.Token
                );
            }

            Assert.True(state is "queued" or "running", told.RootElement.ToString());
            await Task.Delay(50, enough.Token);
        }
    }
}
