using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>
/// J-1 of the shop names tech-02 and tech-04; another record shows that its machine was started while hands were in it, and names tech-01
/// alone. Each bears on the other.
/// </summary>
public sealed class OthersShownTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private static readonly string[] OfThatJob = ["J-1", "tech-02"];

    private readonly ServiceRun _run = shop.Run;

    private HttpClient As(string person) => _run.ClientWith(_run.NewKey(Roles.Technician, person));

    private static byte[] Start(string id, string person = "tech-01") =>
        Encoding.UTF8.GetBytes(
            Encoding.UTF8.GetString(TwoSites.Start(id)).Replace("tech-04", person, StringComparison.Ordinal)
        );

    private static JsonElement Parsed(string body)
    {
        using var document = JsonDocument.Parse(body);
        return document.RootElement.Clone();
    }

    private static void TellsNothingOf(string[] others, string body) =>
        Assert.All(others, other => Assert.DoesNotContain(other, body, StringComparison.Ordinal));

    private static IEnumerable<(string, string, string)> Verdicts(JsonElement assessment) =>
        assessment
            .GetProperty("findings")
            .EnumerateArray()
            .Select(finding =>
                (
                    finding.GetProperty("rule").GetString()!,
                    finding.GetProperty("subject").GetRawText(),
                    finding.GetProperty("verdict").GetString()!
                )
            );

    [Fact]
    public async Task Judge_OfATechnician_CountsTheRecordsOfOthersAndTellsNothingOfThem()
    {
        using var other = As("tech-01");

        var (_, whole) = await TwoSites.PostAsync(_run.Client, "api/judgements", Start("S-judged"));
        var (status, told) = await TwoSites.PostAsync(other, "api/judgements", Start("S-judged"));

        Assert.Equal(200, status);
        Assert.Contains("J-1", whole, StringComparison.Ordinal);
        TellsNothingOf(OfThatJob, told);
        Assert.Contains("another record", told, StringComparison.Ordinal);
        Assert.Equal(Verdicts(Parsed(whole)), Verdicts(Parsed(told)));
        Assert.Equal(
            Parsed(whole).GetProperty("job").GetRawText(),
            Parsed(told).GetProperty("job").GetRawText()
        );
    }

    [Fact]
    public async Task Submit_OfATechnician_TellsOfOthersAndOfThoseTurnedByTheirNumberAlone()
    {
        await using var run = await ServiceRun.StartAsync();
        using var filed = await run.PostAsync(
            "api/records",
            ServiceRun.Record("height-check", [("F-height-check", "J-1")])
        );
        using var starter = run.ClientWith(run.NewKey(Roles.Technician, "tech-01"));
        using var own = run.ClientWith(run.NewKey(Roles.Technician, "tech-02"));

        var (status, body) = await TwoSites.PostAsync(starter, "api/records", Start("S-1"));

        Assert.True(status == 201, body);
        TellsNothingOf(OfThatJob, body);
        var answer = Parsed(body);
        Assert.Equal(0, answer.GetProperty("alsoTurned").GetArrayLength());
        Assert.Equal(1, answer.GetProperty("alsoTurnedHidden").GetInt32());
        Assert.Equal(0, answer.GetProperty("others").GetProperty("records").GetArrayLength());
        Assert.NotEqual(0, answer.GetProperty("others").GetProperty("hidden").GetInt32());
        Assert.NotEqual(0, answer.GetProperty("withheld").GetInt32());
        foreach (var path in new[] { "api/records/J-1", "records/J-1" })
        {
            var read = await TwoSites.GetAsync(own, path);
            Assert.Equal(200, read.Status);
            TellsNothingOf(["S-1", "tech-01"], read.Body);
            Assert.Contains("in the light of another record", read.Body, StringComparison.Ordinal);
        }

        // What would be refused is not offered; who can fetch it is told.
        var (_, page, _, _) = await TwoSites.GetAsync(own, "records/J-1");
        Assert.DoesNotContain("/api/records/J-1/report", page, StringComparison.Ordinal);
        Assert.Contains("A lead or an officer of the site can fetch it", page, StringComparison.Ordinal);
        Assert.Contains(
            "/api/records/J-1/report",
            await run.TextAsync("records/J-1"),
            StringComparison.Ordinal
        );
        var whole = await run.TextAsync("api/records/J-1");
        Assert.Contains("in the light of S-1", whole, StringComparison.Ordinal);
        foreach (var path in new[] { "api/records/J-1/report", "api/records/J-1/report/proof" })
        {
            var kept = await TwoSites.GetAsync(own, path);
            Assert.Equal(403, kept.Status);
            Assert.Contains("a lead or an officer of the site", kept.Body, StringComparison.Ordinal);
            using var whoeverSeesAll = await run.GetAsync(path);
            Assert.Equal(200, (int)whoeverSeesAll.StatusCode);
        }
    }

    [Fact]
    public async Task Bench_OfATechnician_TellsNothingOfTheRecordsOfOthers()
    {
        using var other = As("tech-01");
        using var form = new FormUrlEncodedContent([
            new("record", Encoding.UTF8.GetString(Start("S-bench"))),
            new("do", "judge"),
        ]);

        using var answer = await other.PostAsync(new Uri("bench", UriKind.Relative), form);

        var page = await answer.Content.ReadAsStringAsync();
        Assert.Contains("another record", page, StringComparison.Ordinal);
        TellsNothingOf(["J-1", "tech-02"], page);
    }

    [Fact]
    public async Task Bench_WhereTheReportIsKeptBack_OffersNone()
    {
        using var other = As("tech-01");

        var filed = await SubmittedAsync(other, Start("S-filed"));

        Assert.Contains("href=\"/records/S-filed\"", filed, StringComparison.Ordinal);
        Assert.DoesNotContain("/api/records/S-filed/report", filed, StringComparison.Ordinal);
        Assert.Contains("a lead or an officer of the site can fetch it", filed, StringComparison.Ordinal);
        Assert.Contains(
            "/api/records/S-filed/report",
            await SubmittedAsync(_run.Client, Start("S-filed")),
            StringComparison.Ordinal
        );
    }

    private static async Task<string> SubmittedAsync(HttpClient client, byte[] record)
    {
        using var form = new FormUrlEncodedContent([
            new("record", Encoding.UTF8.GetString(record)),
            new("do", "submit"),
        ]);
        using var answer = await client.PostAsync(new Uri("bench", UriKind.Relative), form);
        return await answer.Content.ReadAsStringAsync();
    }

    [Fact]
    public async Task Judge_OfATechnicianWhomTheOthersName_IsToldWhole()
    {
        using var both = As("tech-02");
        var record = Start("S-own", "tech-02");

        var (_, whole) = await TwoSites.PostAsync(_run.Client, "api/judgements", record);
        var (_, told) = await TwoSites.PostAsync(both, "api/judgements", record);

        Assert.Contains("J-1", told, StringComparison.Ordinal);
        Assert.Equal(whole, told);
    }
}
