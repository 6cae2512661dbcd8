using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Sites;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Sites;

public sealed class SitesStartTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Second => TwoSites.MakeSecond(_product.Folder);

    private ServiceSettings WithSecond(ServiceSettings settings) =>
        TwoSites.WithSecond(settings, _product.Folder);

    [Fact]
    public async Task FolderOfOneSite_ServedWithASecond_KeepsWhoWasThereAtTheFirst()
    {
        await using (var one = await ServiceRun.StartAsync(_product.Folder))
        {
            using var filed = await one.PostAsync("api/records", TwoSites.Job("J-old", "13"));
            Assert.Equal(201, (int)filed.StatusCode);
            Assert.Null(one.Get<IAccountStore>().Keys()[0].Site);
        }

        await using (var several = await ServiceRun.StartAsync(_product.Folder, WithSecond))
        {
            Assert.Equal(TwoSites.First, several.Get<IAccountStore>().Keys()[0].Site);
            using var second = several.ClientWith(several.NewKey(Roles.Lead, site: TwoSites.Second));
            var (status, _) = await TwoSites.PostAsync(second, "api/records", TwoSites.Job("J-new", "13"));
            Assert.Equal(201, status);
            Assert.Equal(200, await StatusAsync(several, "api/records/J-old"));
            Assert.Equal(404, await StatusAsync(several, "api/records/J-new"));
        }

        // A start that leaves the second site out opens it to nobody.
        await using var again = await ServiceRun.StartAsync(_product.Folder);
        Assert.True(again.Get<ServedSites>().AreSeveral);
        Assert.Equal(200, await StatusAsync(again, "api/records/J-old"));
        Assert.Equal(404, await StatusAsync(again, "api/records/J-new"));
        using var every = again.ClientWith(again.NewKey(Roles.Officer, site: GrantedSite.Every));
        Assert.Equal(200, (await TwoSites.GetAsync(every, "api/records/J-new")).Status);
    }

    [Fact]
    public async Task Reports_OfTheFirstSite_AreSignedByTheKeyThatWasThere()
    {
        string before;
        await using (var one = await ServiceRun.StartAsync(_product.Folder))
        {
            before = await one.TextAsync("api/certificate");
        }

        await using var several = await ServiceRun.StartAsync(_product.Folder, WithSecond);

        Assert.Equal(before, await several.TextAsync("api/certificate"));
    }

    [Fact]
    public async Task TwoSites_OfOneName_AreRefused()
    {
        var rules = ServiceRun.Rules;

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            ServiceRun.StartAsync(_product.Folder, settings => settings with { Sites = [rules] })
        );

        Assert.Contains("two sites are called", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RecordsOfAnotherSite_AreNotServedAsThoseOfThisOne()
    {
        await using (var one = await ServiceRun.StartAsync(_product.Folder))
        {
            using var filed = await one.PostAsync("api/records", TwoSites.Job("J-old", "13"));
            Assert.Equal(201, (int)filed.StatusCode);
        }

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() =>
            ServiceRun.StartAsync(
                _product.Folder,
                settings => WithSecond(settings) with { Rules = settings.Rules with { Site = null } }
            )
        );

        Assert.Contains($"are of the site `{TwoSites.First}`", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"are of `{TwoSites.Second}`", refused.Message, StringComparison.Ordinal);
        await using var again = await ServiceRun.StartAsync(_product.Folder);
        Assert.Equal(200, await StatusAsync(again, "api/records/J-old"));
    }

    [Fact]
    public async Task FolderOfRules_WithoutASite_ServesThoseThatAreGiven()
    {
        await using var run = await ServiceRun.StartAsync(
            _product.Folder,
            settings => WithSecond(settings) with { Rules = settings.Rules with { Site = null } }
        );

        Assert.Equal(TwoSites.Second, run.Get<ServedSites>().Home.Name);
        Assert.False(run.Get<ServedSites>().AreSeveral);
        Assert.Contains("birch-03", await run.TextAsync("api/people"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task People_OnThePage_AreGivenASite()
    {
        await using var run = await ServiceRun.StartAsync(_product.Folder, WithSecond);
        using var page = await run.GetAsync("people");
        var shown = await page.Content.ReadAsStringAsync();
        Assert.Contains("name=\"site\"", shown, StringComparison.Ordinal);
        Assert.Contains("birch-03", shown, StringComparison.Ordinal);

        Assert.Equal(422, await AddAsync("none", "lead"));
        Assert.Equal(422, await AddAsync("elsewhere", "lead", "Nowhere"));
        Assert.Equal(422, await AddAsync("technician", "technician", GrantedSite.Every, "tech-02"));
        Assert.Equal(422, await AddAsync("every", "lead", GrantedSite.Every, "lead-01"));
        Assert.Equal(422, await AddAsync("of-first", "technician", TwoSites.First, "birch-03"));
        Assert.Equal(200, await AddAsync("of-second", "technician", TwoSites.Second, "birch-03"));
        Assert.Equal(200, await AddAsync("of-every", "officer", GrantedSite.Every));

        var accounts = run.Get<IAccountStore>();
        Assert.Equal(
            [("of-every", GrantedSite.Every), ("of-second", TwoSites.Second)],
            accounts.Accounts().Select(account => (account.Name, account.Site!))
        );
        Assert.Contains("`Birch Hollow`", accounts.Acts(null, 2)[1].Detail, StringComparison.Ordinal);

        async Task<int> AddAsync(string name, string role, string? site = null, string? person = null)
        {
            using var form = new FormUrlEncodedContent([
                new("name", name),
                new("role", role),
                new("site", site ?? ""),
                new("person", person ?? ""),
            ]);
            using var answer = await run.Client.PostAsync(new Uri("people", UriKind.Relative), form);
            return (int)answer.StatusCode;
        }
    }

    [Fact]
    public async Task Key_MadeByCommand_IsOfTheSiteThatIsGiven()
    {
        await using var run = await ServiceRun.StartAsync(_product.Folder, WithSecond);

        var second = Key("--site", Second, "--role", "technician", "--person", "birch-03");
        var every = Key("--site", GrantedSite.Every, "--role", "officer");
        var first = Key("--role", "lead");
        var none = Key("--site", _product.At("data"), "--role", "lead");
        var odd = Key("--site", GrantedSite.Every, "--role", "technician", "--person", "tech-02");

        Assert.True(second.ExitCode == 0, second.ToString());
        Assert.Equal(TwoSites.Second, Made(second).Site);
        Assert.Equal(GrantedSite.Every, Made(every).Site);
        Assert.Equal(TwoSites.First, Made(first).Site);
        Assert.Equal((2, 2), (none.ExitCode, odd.ExitCode));

        ProductOutcome Key(params string[] more) =>
            _product.Run(["accounts", "key", "--data", _product.At("data"), "--name", "x", .. more]);

        ApiKey Made(ProductOutcome outcome) =>
            run.Get<IAccountStore>().Key(DrawnSecret.Hash(outcome.StandardOutput.Trim()))!;
    }

    [Fact]
    public async Task Key_MadeByCommandWhereThereIsOneSite_IsOfNone()
    {
        await using var run = await ServiceRun.StartAsync(_product.Folder);

        var outcome = _product.Run([
            "accounts",
            "key",
            "--data",
            _product.At("data"),
            "--name",
            "x",
            "--role",
            "lead",
            "--site",
            Second,
        ]);

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("one site", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Table_ImportedForASite_IsOfItsRecordsAlone()
    {
        await using var run = await ServiceRun.StartAsync(_product.Folder, WithSecond);
        var mapping = _product.Write(
            "t.mapping.json",
            Encoding.UTF8.GetBytes(
                """
                { "format": "import-mapping/1", "groupBy": "Job",
                  "record": [
                    { "to": "/id", "column": "Job" }, { "to": "/date", "column": "Date" },
                    { "to": "/machine/id", "given": "M-02" }, { "to": "/tasks", "given": "height-check", "as": "words" },
                    { "to": "/signOff/by", "given": "tech-02" },
                    { "to": "/signOff/at", "given": "2026-04-20T08:00:00+01:00", "as": "time" }
                  ],
                  "lists": [
                    { "in": "/people", "values": [{ "to": "/id", "given": "tech-02" }, { "to": "/role", "given": "performs" }] },
                    { "in": "/units", "key": ["Unit"],
                      "values": [{ "to": "/id", "column": "Unit" }, { "to": "/sheet", "given": "reel-125-9-510" }] }
                  ] }
                """
            )
        );
        var table = _product.Write("t.csv", Encoding.UTF8.GetBytes("Job,Date,Unit\nT-1,2026-04-13,U-02-1\n"));

        var outcome = Import("--site", Second);
        var taken = Import();

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.True(taken.ExitCode == 1, taken.ToString());
        Assert.Contains("something else stands", taken.StandardError, StringComparison.Ordinal);
        using var first = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.First));
        using var second = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.Second));
        Assert.Equal(404, (await TwoSites.GetAsync(first, "api/records/T-1")).Status);
        Assert.Equal(200, (await TwoSites.GetAsync(second, "api/records/T-1")).Status);

        ProductOutcome Import(params string[] more) =>
            _product.Run(["import", table, "--mapping", mapping, "--data", _product.At("data"), .. more]);
    }

    [Theory]
    [InlineData("--inbox-site", "--site", "SECOND", "--inbox", "in")]
    [InlineData("one of both", "--site", "SECOND", "--demo")]
    [InlineData("no file of a site", "--site", "RULES")]
    [InlineData("cannot be read as a folder", "--site", "nowhere")]
    public void Serve_SitesThatCannotBe_AreRefusedWithWhatWouldBeAccepted(string told, params string[] given)
    {
        var outcome = _product.Run([
            "serve",
            "--port",
            "0",
            "--data",
            _product.At("data"),
            .. given.Select(word =>
                word switch
                {
                    "SECOND" => Second,
                    "RULES" => ReferenceFiles.InRepository("rules"),
                    _ => word,
                }
            ),
        ]);

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    private static async Task<int> StatusAsync(ServiceRun run, string path)
    {
        using var answer = await run.GetAsync(path);
        return (int)answer.StatusCode;
    }
}
