using System.Globalization;
using System.Net;
using System.Text.Json;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Rejudging;
using ServiceRules.Host.Tests.Sites;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Tests.Rejudging;

/// <summary>The stored history, judged again behind the answer.</summary>
public sealed class RejudgingTests
{
    [Fact]
    public async Task History_JudgedAgainByStricterRules_TurnsWhatComesOutOtherwiseAndSaysWhy()
    {
        await using var run = await ServiceRun.StartAsync();
        var strict = (await run.GetJsonAsync("api/packs")).GetProperty("digest").GetString()!;
        var lenient = await ActivateLenientAsync(run);
        await FileAsync(run, TooHigh("A-1"), "release");
        await FileAsync(run, TooHigh("A-2"), "release");
        await ActivateAsync(run, strict);
        await FileAsync(run, TooHigh("A-3"), "hold");
        var before = await run.GetJsonAsync("api/records/A-3");

        var (place, asked) = await BeginAsync(run, strict, "?reason=new%20season");
        var done = await UntilDoneAsync(run, place);

        Assert.Equal($"api/packs/{strict}/rejudging", place);
        Assert.Equal(3, asked.GetProperty("records").GetInt64());
        Assert.Equal("done", done.GetProperty("state").GetString());
        Assert.Equal(
            (3L, 3L, 2L, 0L, 1L, 0L),
            (
                Number(done, "records"),
                Number(done, "lookedAt"),
                Number(done, "turned"),
                Number(done, "unchanged"),
                Number(done, "passedOver"),
                Number(done, "failed")
            )
        );
        Assert.Equal("new season", done.GetProperty("reason").GetString());
        Assert.StartsWith("key:", done.GetProperty("begunBy").GetString()!, StringComparison.Ordinal);
        var record = await run.GetJsonAsync("api/records/A-1");
        Assert.Equal("hold", DispositionOf(record));
        var turned = Assert.Single(record.GetProperty("turned").EnumerateArray());
        Assert.DoesNotContain("not-applicable", turned.GetRawText(), StringComparison.Ordinal);
        Assert.Contains($"judged again by rules {strict}", record.GetRawText(), StringComparison.Ordinal);
        Assert.Equal(before.GetRawText(), (await run.GetJsonAsync("api/records/A-3")).GetRawText());
        Assert.Contains(
            run.Get<IAccountStore>().Acts(null, 100),
            act =>
                act is { What: AccountAct.RejudgingBegun, Detail: "new season", Entry: not null }
                && act.About == AccountAct.OfRules(strict)
        );
        using var others = await run.PostAsync($"api/packs/{lenient}/rejudging", []);
        Assert.Equal(409, (int)others.StatusCode);
    }

    [Fact]
    public async Task History_JudgedAgainTwice_IsASecondTimePassedOver()
    {
        await using var run = await ServiceRun.StartAsync();
        var strict = (await run.GetJsonAsync("api/packs")).GetProperty("digest").GetString()!;
        _ = await ActivateLenientAsync(run);
        await FileAsync(run, TooHigh("A-1"), "release");
        await ActivateAsync(run, strict);
        _ = await UntilDoneAsync(run, (await BeginAsync(run, strict)).Place);

        var (place, asked) = await BeginAsync(run, strict);

        Assert.Equal("running", asked.GetProperty("state").GetString());
        var done = await UntilDoneAsync(run, place);
        Assert.Equal((0L, 1L), (Number(done, "turned"), Number(done, "passedOver")));
        Assert.Equal(JsonValueKind.Null, Member(done, "reason").ValueKind);
    }

    [Fact]
    public async Task Rejudging_OfNothingStoredOrNeverBegun_IsNotThere()
    {
        await using var run = await ServiceRun.StartAsync();
        var strict = (await run.GetJsonAsync("api/packs")).GetProperty("digest").GetString()!;

        using var unknown = await run.PostAsync("api/packs/sha256:00/rejudging", []);
        using var never = await run.GetAsync($"api/packs/{strict}/rejudging");
        using var wordy = await run.PostAsync(
            $"api/packs/{strict}/rejudging?reason={new string('x', 3000)}",
            []
        );

        Assert.Equal(404, (int)unknown.StatusCode);
        Assert.Equal(404, (int)never.StatusCode);
        Assert.Equal(422, (int)wordy.StatusCode);
        Assert.Null(run.Get<IRejudgingStore>().Find(strict));
    }

    [Fact]
    public async Task Rejudging_OfSeveralSites_IsForWhoIsOfEveryOneAndJudgesAll()
    {
        var shop = new TwoSites();
        await shop.InitializeAsync();
        try
        {
            var run = shop.Run;
            using var ofOne = shop.As(Roles.Lead | Roles.Officer, TwoSites.Second);
            var place = $"api/packs/{await ActivateLenientAsync(run, TwoSites.Second)}/rejudging";

            using var asked = await ofOne.PostAsync(new Uri(place, UriKind.Relative), null);
            using var told = await ofOne.GetAsync(new Uri(place, UriKind.Relative));
            Assert.Equal(HttpStatusCode.Forbidden, asked.StatusCode);
            Assert.Equal(HttpStatusCode.Forbidden, told.StatusCode);
            using var begun = await run.PostAsync(place, []);
            Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
            var done = await UntilDoneAsync(run, place);

            Assert.Equal((3L, 3L), (Number(done, "records"), Number(done, "turned")));
            Assert.Equal("release", DispositionOf(await run.GetJsonAsync("api/records/J-B2")));
        }
        finally
        {
            await shop.DisposeAsync();
        }
    }

    [Fact]
    public async Task Work_OfAPageThatIsNone_IsDone()
    {
        await using var run = await ServiceRun.StartAsync();
        var work = run.Get<RejudgingWork>();

        Assert.Null(await work.DoAsync("1-0", CancellationToken.None));
        Assert.Null(await work.DoAsync("daily", CancellationToken.None));
        Assert.Null(await work.DoAsync("1-x", CancellationToken.None));
    }

    [Fact]
    public async Task Work_WhileTheStoreIsBusy_IsTriedAgainSoon()
    {
        await using var run = await ServiceRun.StartAsync();
        var work = new RejudgingWork(
            new RejudgePage(
                run.Get<OpenLedger>(),
                run.Get<GroupFiling>(),
                new Pages(1, new LedgerStoreException(StoreTrouble.Busy, "held")),
                run.Get<ActiveRules>(),
                NoticeRecipients.None,
                false,
                (_, _) => { }
            ),
            run.Get<RejudgingMeter>(),
            run.Get<NoticeBell>(),
            run.Get<IHostApplicationLifetime>(),
            run.Get<ILogger<RejudgingWork>>()
        );

        Assert.Equal(TimeSpan.FromSeconds(10), await work.DoAsync("3-0", CancellationToken.None));
    }

    [Fact]
    public void Owed_ManyPages_AreHandedOverSomeAtATimeAndEachOnce()
    {
        var store = new Pages(200);
        var owed = new RejudgingsOwed(store, null!);

        Assert.Equal(64, owed.Owed(true).Count());
        Assert.Empty(owed.Owed(false));
        store.Done = 10;
        Assert.Equal(Enumerable.Range(64, 10).Select(number => $"3-{number}"), owed.Owed(false));
        Assert.Equal(64, owed.Owed(true).Count());
    }

    private static long Number(JsonElement told, string name) => told.GetProperty(name).GetInt64();

    private static string? DispositionOf(JsonElement record) =>
        record.GetProperty("assessment").GetProperty("job").GetProperty("disposition").GetString();

    private static JsonElement Member(JsonElement told, string name) =>
        told.TryGetProperty(name, out var member) ? member : JsonDocument.Parse("null").RootElement;

    private static async Task<(string Place, JsonElement Told)> BeginAsync(
        ServiceRun run,
        string digest,
        string query = ""
    )
    {
        using var answer = await run.PostAsync($"api/packs/{digest}/rejudging{query}", []);
        Assert.Equal(HttpStatusCode.Accepted, answer.StatusCode);
        return (answer.Headers.Location!.OriginalString.TrimStart('/'), await ServiceRun.JsonAsync(answer));
    }

    private static async Task<JsonElement> UntilDoneAsync(ServiceRun run, string place)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(90));
        while (true)
        {
            var told = await run.GetJsonAsync(place);
            if (told.GetProperty("state").GetString() != "running")
            {
                return told;
            }

            await Task.Delay(50, enough.Token);
        }
    }

    private static byte[] TooHigh(string id) =>
        ServiceRun.Record(
            "height-check",
            ("F-height-check", id),
            ("2026-04-13", "2026-04-" + (12 + int.Parse(id.AsSpan(2), CultureInfo.InvariantCulture))),
            ("3.82 mm", "4.90 mm")
        );

    private static async Task FileAsync(ServiceRun run, byte[] record, string disposition)
    {
        using var filed = await run.PostAsync("api/records", record);
        var told = await ServiceRun.JsonAsync(filed);
        Assert.True(filed.StatusCode == HttpStatusCode.Created, told.GetRawText());
        Assert.Equal(disposition, told.GetProperty("disposition").GetString());
    }

    private static async Task ActivateAsync(ServiceRun run, string digest)
    {
        using var activated = await run.PostAsync(
            $"api/packs/{digest}/activation?by=lead-01&reason=season",
            []
        );
        Assert.Equal(HttpStatusCode.Created, activated.StatusCode);
    }

    /// <summary>Puts the rules in force without those that hold a unit that is set too high.</summary>
    private static async Task<string> ActivateLenientAsync(ServiceRun run, string? site = null)
    {
        using var judged = await run.PostAsync(
            "api/judgements" + (site is null ? "" : $"?site={Uri.EscapeDataString(site)}"),
            TooHigh("A-9")
        );
        var breached = (await ServiceRun.JsonAsync(judged))
            .GetProperty("findings")
            .EnumerateArray()
            .Where(finding => finding.GetProperty("verdict").GetString() == "not-met")
            .Select(finding => finding.GetProperty("rule").GetString())
            .ToHashSet();
        RuleBook book = ServiceRun.Rules.Book with
        {
            Packs =
            [
                .. ServiceRun.Rules.Book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => !breached.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };
        var document = RuleDocument.Of(book);
        _ = run.Get<StoreRules>().Keep(document, "key:test");
        await ActivateAsync(run, document.Digest);
        return document.Digest;
    }

    private sealed class Pages(int count, Exception? trouble = null) : IRejudgingStore
    {
        private static readonly RejudgingJob Job = new(3, "a", "key:1", DateTimeOffset.UnixEpoch);

        public int Done { get; set; }

        public RejudgingJob? Find(string digest) => Job;

        public System.Collections.Immutable.ImmutableArray<NotJudged> Failures(long job, int most) => [];

        public System.Collections.Immutable.ImmutableArray<RejudgingPage> Waiting(int most) =>
            [
                .. Enumerable
                    .Range(Done, count - Done)
                    .Take(most)
                    .Select(number => new RejudgingPage(Job, number, number, number, 1)),
            ];

        public RejudgingPage? Page(long job, long number) => trouble is null ? null : throw trouble;
    }
}
