using System.Net;
using System.Text;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests;

/// <summary>Rules that are loosened for a time while the service runs.</summary>
public sealed class WaiversApiTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;
    private ServiceRun _run = null!;

    public async Task InitializeAsync() => _run = await ServiceRun.StartAsync(_folder);

    public async Task DisposeAsync()
    {
        await _run.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Waiver_LetsOutFromThenOnAlsoAfterAStartUntilItIsWithdrawn()
    {
        await FileAsync("A-1", "hold");
        var entered = new List<string>();
        foreach (var rule in await BreachedAsync())
        {
            using var answer = await EnterAsync(Waiver(rule));
            Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
            entered.Add((await ServiceRun.JsonAsync(answer)).GetProperty("id").GetString()!);
            using var again = await EnterAsync(Waiver(rule));
            Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        }

        await FileAsync("A-2", "release");
        Assert.Equal("hold", await StoredAsync("A-1"));
        await _run.DisposeAsync();
        _run = await ServiceRun.StartAsync(_folder);
        await FileAsync("A-3", "release");

        foreach (var id in entered)
        {
            using var withdrawn = await _run.PostAsync($"api/waivers/{id}/withdrawal?reason=mended", []);
            Assert.Equal(HttpStatusCode.OK, withdrawn.StatusCode);
        }

        await FileAsync("A-4", "hold");
        var listed = (await _run.GetJsonAsync("api/waivers"))
            .GetProperty("waivers")
            .EnumerateArray()
            .ToList();
        Assert.Equal(entered, listed.Select(one => one.GetProperty("id").GetString()));
        Assert.All(listed, one => Assert.Equal("withdrawn", one.GetProperty("standing").GetString()));
        var acts = _run.Get<IAccountStore>().Acts(null, 100);
        Assert.Equal(entered.Count, acts.Count(act => act.What == AccountAct.WaiverEntered));
        Assert.All(
            acts.Where(act => act.What == AccountAct.WaiverWithdrawn),
            act => Assert.Equal("mended", act.Detail)
        );
    }

    [Fact]
    public async Task Waiver_IsAnEntryOfTheLog()
    {
        using var answer = await EnterAsync(Waiver("height-on-target"));
        var told = await ServiceRun.JsonAsync(answer);

        var entry = await _run.GetJsonAsync($"api/ledger/entries/{told.GetProperty("entry").GetInt64()}");

        Assert.Equal("waiver", entry.GetProperty("kind").GetString());
        Assert.Equal("height-on-target.all.2026-04-01", entry.GetProperty("subject").GetString());
    }

    [Fact]
    public async Task Waiver_OfDaysThatAreNotTheJobs_LetsNothingOut()
    {
        foreach (var rule in await BreachedAsync())
        {
            using var answer = await EnterAsync(Waiver(rule, from: "2026-05-01", until: "2026-05-02"));
            Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        }

        await FileAsync("A-1", "hold");
    }

    [Theory]
    [InlineData("no-such-rule", "lead-01", "2026-04-01", "2026-04-30", "/rule")]
    [InlineData("height-on-target", "tech-03", "2026-04-01", "2026-04-30", "/by")]
    [InlineData("height-on-target", "nobody", "2026-04-01", "2026-04-30", "/by")]
    [InlineData("height-on-target", "lead-01", "2026-05-01", "2026-04-30", "/until")]
    public async Task Waiver_ThatCannotBe_IsRefusedAtItsPlaceAndKeptNowhere(
        string rule,
        string by,
        string from,
        string until,
        string place
    )
    {
        using var answer = await EnterAsync(Waiver(rule, by, from, until));

        Assert.Equal(422, (int)answer.StatusCode);
        Assert.Contains(
            (await ServiceRun.JsonAsync(answer)).GetProperty("problems").EnumerateArray(),
            problem => problem.GetProperty("pointer").GetString() == place
        );
        Assert.Empty((await _run.GetJsonAsync("api/waivers")).GetProperty("waivers").EnumerateArray());
    }

    [Fact]
    public async Task Waiver_OfARuleThatStops_IsRefused()
    {
        var stops = ServiceRun
            .Rules.Book.Packs.SelectMany(pack => pack.Rules)
            .First(rule => rule.Severity is Domain.Verdicts.Severity.Stop)
            .Id.Text;

        using var answer = await EnterAsync(Waiver(stops));

        Assert.Equal(422, (int)answer.StatusCode);
        Assert.Contains(
            "never waived",
            (await ServiceRun.JsonAsync(answer)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Waiver_OnDaysThatAreWaivedAlready_IsRefusedUntilThatIsWithdrawn()
    {
        using var first = await EnterAsync(Waiver("height-on-target"));
        using var over = await EnterAsync(
            Waiver("height-on-target", from: "2026-04-20", until: "2026-05-20")
        );
        Assert.Equal(422, (int)over.StatusCode);

        using var withdrawn = await _run.PostAsync("api/waivers/W-1/withdrawal?reason=longer", []);
        using var now = await EnterAsync(Waiver("height-on-target", from: "2026-04-20", until: "2026-05-20"));

        Assert.Equal(HttpStatusCode.Created, now.StatusCode);
        Assert.Equal("W-2", (await ServiceRun.JsonAsync(now)).GetProperty("id").GetString());
    }

    [Theory]
    [InlineData("W-1", "", 422)]
    [InlineData("W-1", "?reason=as%20tech-03%20asked", 422)]
    [InlineData("W-1", "?reason=x", 404)]
    [InlineData("W-99999999999999999999", "?reason=x", 404)]
    [InlineData("1", "?reason=x", 404)]
    public async Task Withdrawal_OfNothing_IsRefused(string id, string query, int status)
    {
        using var answer = await _run.PostAsync($"api/waivers/{id}/withdrawal{query}", []);

        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Waiver_WhoseContentWasErased_LetsOutNoMore()
    {
        foreach (var rule in await BreachedAsync())
        {
            using var answer = await EnterAsync(Waiver(rule));
        }

        await FileAsync("A-1", "release");
        using var erased = await _run.PostAsync(
            "api/people/lead-01/erasure?by=officer-01&reason=asked%20for%20it&contents=true",
            []
        );
        Assert.Equal(HttpStatusCode.Created, erased.StatusCode);

        await FileAsync("A-2", "hold");
        Assert.All(
            (await _run.GetJsonAsync("api/waivers")).GetProperty("waivers").EnumerateArray(),
            one => Assert.Equal("erased", one.GetProperty("standing").GetString())
        );
    }

    [Fact]
    public async Task Waiver_WhoseContentIsLost_IsNotToldAsErasedAndNothingIsJudgedWithoutIt()
    {
        using var entered = await EnterAsync(Waiver("height-on-target"));
        Assert.Equal(HttpStatusCode.Created, entered.StatusCode);
        Lose();

        using var listed = await _run.GetAsync("api/waivers");
        using var page = await _run.GetAsync("waivers");
        using var judged = await _run.PostAsync("api/judgements", TooHigh("A-1"));
        using var filed = await _run.PostAsync("api/records", TooHigh("A-1"));

        Assert.Equal(HttpStatusCode.ServiceUnavailable, page.StatusCode);
        foreach (var answer in new[] { listed, judged, filed })
        {
            await IsLostAsync(answer);
        }

        using var none = await _run.GetAsync("api/records/A-1");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        using var withdrawn = await _run.PostAsync("api/waivers/W-1/withdrawal?reason=lost", []);
        Assert.Equal(
            "withdrawn",
            (await ServiceRun.JsonAsync(withdrawn)).GetProperty("standing").GetString()
        );
        await FileAsync("A-1", "hold");
    }

    private static async Task IsLostAsync(HttpResponseMessage answer)
    {
        var told = await ServiceRun.JsonAsync(answer);
        Assert.True(answer.StatusCode == HttpStatusCode.ServiceUnavailable, told.GetRawText());
        Assert.EndsWith("storage", told.GetProperty("type").GetString(), StringComparison.Ordinal);
        Assert.Contains(
            "servicerules ledger mend",
            told.GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    private void Lose()
    {
        using var connection = new SqliteConnection(
            $"Data Source={Path.Combine(_folder, "data", "ledger", "ledger.db")};Pooling=False"
        );
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "DELETE FROM content WHERE hash IN (SELECT content FROM site_waiver)";
        Assert.Equal(1, command.ExecuteNonQuery());
    }

    private static string Waiver(
        string rule,
        string by = "lead-01",
        string from = "2026-04-01",
        string until = "2026-04-30"
    ) =>
        $$"""
            { "format": "waiver/1", "rule": "{{rule}}", "by": "{{by}}", "reason": "the wet spring",
              "from": "{{from}}", "until": "{{until}}" }
            """;

    private static byte[] TooHigh(string id) =>
        ServiceRun.Record("height-check", ("F-height-check", id), ("3.82 mm", "4.90 mm"));

    private Task<HttpResponseMessage> EnterAsync(string waiver) =>
        _run.PostAsync("api/waivers", Encoding.UTF8.GetBytes(waiver));

    private async Task<List<string>> BreachedAsync()
    {
        using var judged = await _run.PostAsync("api/judgements", TooHigh("A-9"));
        return
        [
            .. (await ServiceRun.JsonAsync(judged))
                .GetProperty("findings")
                .EnumerateArray()
                .Where(finding => finding.GetProperty("verdict").GetString() == "not-met")
                .Select(finding => finding.GetProperty("rule").GetString()!)
                .Distinct(),
        ];
    }

    private async Task FileAsync(string id, string disposition)
    {
        using var answer = await _run.PostAsync("api/records", TooHigh(id));
        var told = await ServiceRun.JsonAsync(answer);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, told.GetRawText());
        Assert.Equal(disposition, told.GetProperty("disposition").GetString());
    }

    private async Task<string?> StoredAsync(string id) =>
        (await _run.GetJsonAsync("api/records"))
            .GetProperty("items")
            .EnumerateArray()
            .Single(row => row.GetProperty("id").GetString() == id)
            .GetProperty("disposition")
            .GetString();
}
