using System.Net;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Tests;

public sealed class KeepingApiTests : IAsyncLifetime
{
    private ServiceRun _run = null!;

    public async Task InitializeAsync()
    {
        _run = await ServiceRun.StartAsync();
        using var filed = await _run.PostAsync("api/records", ServiceRun.Record("height-check"));
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
    }

    public async Task DisposeAsync() => await _run.DisposeAsync();

    private Task<HttpResponseMessage> PostAsync(string path, string body) =>
        _run.PostAsync(path, Encoding.UTF8.GetBytes(body));

    private static string Comment(string text) =>
        $$"""{ "format": "comment/1", "record": "F-height-check", "text": "{{text}}" }""";

    [Fact]
    public async Task Comment_OfAnOfficer_StandsInTheLogAndAtTheRecord()
    {
        const string place = "api/records/F-height-check/comments?by=officer-01";
        using var first = await PostAsync(place, Comment("The left end was read twice."));
        using var again = await PostAsync(place, Comment("The left end was read twice."));

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        var told = Assert.Single(
            (await _run.GetJsonAsync("api/records/F-height-check")).GetProperty("comments").EnumerateArray()
        );
        Assert.Equal("The left end was read twice.", told.GetProperty("text").GetString());
        Assert.Equal("comment", told.GetProperty("entry").GetProperty("kind").GetString());
        Assert.Contains(
            "The left end was read twice.",
            await _run.TextAsync("records/F-height-check"),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("F-none", """{ "format": "comment/1", "record": "F-none", "text": "x" }""", 404)]
    [InlineData("F-height-check", """{ "format": "comment/1", "record": "F-none", "text": "x" }""", 422)]
    [InlineData("F-height-check", """{ "format": "comment/1", "record": "F-height-check" }""", 422)]
    [InlineData("F-height-check", "{", 400)]
    public async Task Comment_ThatCannotBe_IsRefused(string record, string body, int status)
    {
        using var answer = await PostAsync($"api/records/{record}/comments?by=officer-01", body);

        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Erasure_ForAReasonThatNamesThePerson_IsRefusedAsUnfitAndNoConflict()
    {
        using var refused = await PostAsync(
            "api/people/tech-02/erasure?by=officer-01&reason=tech-02%20asked",
            ""
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.EndsWith(
            "#problem-refused",
            (await ServiceRun.JsonAsync(refused)).GetProperty("type").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Hold_KeepsThatAPersonIsErasedUntilItIsLifted()
    {
        const string erasure =
            "api/people/tech-02/erasure?by=officer-01&reason=asked%20for%20it&contents=true";
        using var held = await PostAsync(
            "api/holds?by=officer-01&reason=an%20injury",
            """{ "format": "hold/1", "record": "F-height-check" }"""
        );
        Assert.Equal(HttpStatusCode.Created, held.StatusCode);
        using var refused = await PostAsync(erasure, "");
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Contains(
            "hold `H-1` (record F-height-check)",
            (await ServiceRun.JsonAsync(refused)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );

        using var lifted = await PostAsync("api/holds/H-1/lift?by=lead-01&reason=settled", "");
        Assert.Equal(HttpStatusCode.Created, lifted.StatusCode);
        var told = Assert.Single(
            (await _run.GetJsonAsync("api/holds")).GetProperty("holds").EnumerateArray()
        );
        Assert.Equal("F-height-check", told.GetProperty("record").GetString());
        Assert.Equal("settled", told.GetProperty("lifted").GetProperty("reason").GetString());
        using var erased = await PostAsync(erasure, "");
        Assert.Equal(HttpStatusCode.Created, erased.StatusCode);
    }

    [Fact]
    public async Task Person_Erased_IsSignedOutEverywhereAndNamedInNoAccountOrKey()
    {
        var key = _run.NewKey(Roles.Technician, "tech-02");
        using var own = _run.ClientWith(key);
        Assert.Equal(
            HttpStatusCode.OK,
            (await own.GetAsync(new Uri("api/machines", UriKind.Relative))).StatusCode
        );
        _ = _run.Get<IAccountStore>()
            .Write(writing =>
                writing.Add(
                    new Account("a-2", "two", "TWO", Roles.Technician, DateTimeOffset.UnixEpoch)
                    {
                        Person = "tech-02",
                        Stamp = "s",
                    }
                )
            );

        using var erased = await PostAsync(
            "api/people/tech-02/erasure?by=officer-01&reason=asked%20for%20it",
            ""
        );

        Assert.Equal(HttpStatusCode.Created, erased.StatusCode);
        Assert.Equal(
            HttpStatusCode.Unauthorized,
            (await own.GetAsync(new Uri("api/machines", UriKind.Relative))).StatusCode
        );
        var accounts = _run.Get<IAccountStore>();
        Assert.Null(accounts.Account("a-2"));
        Assert.DoesNotContain(accounts.Keys(), one => one.Person == "tech-02");
        Assert.Null(_run.Get<OpenLedger>().Log.PseudonymOf("tech-02"));
        Assert.Equal(
            [AccountAct.KeyRevoked, AccountAct.AccountRemoved, AccountAct.PersonErased],
            accounts.Acts(null, 3).Select(act => act.What)
        );
    }

    [Fact]
    public async Task Retention_ThatWasSet_IsDoneByTheQueueAfterAStart()
    {
        var place = Directory.CreateTempSubdirectory("servicerules-keeping-").FullName;
        try
        {
            await using (var first = await ServiceRun.StartAsync(place))
            {
                using var filed = await first.PostAsync("api/records", ServiceRun.Record("height-check"));
                Assert.IsType<FilingOutcome.Filed>(
                    RetentionOfLog.Set(
                        first.Get<OpenLedger>(),
                        new()
                        {
                            Records = 1,
                            Assessments = 1,
                            Reports = 1,
                        },
                        new("officer-01", "policy"),
                        AccountAct.Machine
                    )
                );
            }

            await using var again = await ServiceRun.StartAsync(
                place,
                settings => settings with { Clock = new Later() }
            );
            var until = DateTime.UtcNow.AddSeconds(60);
            while (!again.Get<OpenLedger>().Rows.Versions("F-height-check").IsEmpty)
            {
                Assert.True(DateTime.UtcNow < until);
                await Task.Delay(100);
            }

            Assert.StartsWith(
                "erased by retention on ",
                new TellSubject(again.Get<OpenLedger>().Log).Tell("F-height-check")[0].WhyNone,
                StringComparison.Ordinal
            );
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    private sealed class Later : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2040, 1, 1, 0, 0, 0, TimeSpan.Zero);
    }
}
