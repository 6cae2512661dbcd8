using System.Collections.Immutable;
using System.Net;
using System.Text.RegularExpressions;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>What the page on a shop of one's own says is done in a browser: the first administrator, accounts, and the bench.</summary>
public sealed partial class OwnShopTests : IDisposable
{
    private const string Password = "a long enough one";

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    private string Shop => Path.Combine(_folder, "shop");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private LoadedRules Made()
    {
        Written(
            NewSite.Run(
                ServiceRun.Rules,
                new SiteDemand
                {
                    Name = "Prairie Links",
                    TimeZone = "America/Chicago",
                    ZoneData = "test",
                    Folder = Shop,
                    People = [("lead-01", ShopRole.Lead), ("tech-01", ShopRole.Technician)],
                    Today = new(2026, 3, 1),
                }
            )
        );
        var sources = SourceMembers.With(
            [],
            [
                new("engine_start", "title", "Engine start"),
                new("engine_start", "isolator", "battery_disconnect"),
                new("engine_start", "proof", "start tried, people clear"),
            ],
            out _
        );
        foreach (var id in (string[])["M-01", "M-02"])
        {
            Written(EnterInRegister.Machine(RuleFolder.Load(Shop), new(new(id), "Ride-on", sources), false));
        }

        Written(
            NewProcedure.Run(
                RuleFolder.Load(Shop),
                new Procedure
                {
                    Id = new("P-ride-on-1"),
                    Title = "Ride-on machine",
                    Machines = [new("M-01")],
                    Place = WorkPlace.OnMachine,
                    Sources = ImmutableArray<EnergySource>.Empty,
                    Controls = new(true, true, true, true),
                    From = new(2026, 3, 1),
                }
            )
        );
        return RuleFolder.Load(Shop);
    }

    private static void Written(AuthoringOutcome outcome) => Assert.IsType<AuthoringOutcome.Written>(outcome);

    private static async Task<string> TextAsync(Browser browser, string path)
    {
        using var answer = await browser.GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task Shop_OfOnesOwn_IsBegunInABrowserAsThePageSays()
    {
        await using var run = await ServiceRun.StartAsync(
            _folder,
            settings => settings with { Rules = Made() }
        );
        using var administrator = new Browser(run);
        using var first = await administrator.SendAsync(
            "first-administrator",
            "first-administrator",
            ("secret", run.Service.WaysIn.FirstSecret!),
            ("name", "admin"),
            ("password", Password)
        );
        Assert.Equal(303, await administrator.SignInAsync("admin", Password));
        using var added = await administrator.SendAsync(
            "people",
            "people",
            ("name", "bench"),
            ("role", "technician"),
            ("person", "tech-01")
        );
        var given = Given()
            .Match(WebUtility.HtmlDecode(await added.Content.ReadAsStringAsync()))
            .Groups[1]
            .Value;

        using var technician = new Browser(run);
        Assert.Equal(303, await technician.SignInAsync("bench", given));
        // The password that somebody else knows is changed before anything else.
        Assert.NotEqual(200, await technician.StatusAsync("bench"));
        using var changed = await technician.SendAsync(
            "account",
            "account/password",
            ("old", given),
            ("new", Password)
        );
        var bench = await TextAsync(technician, "bench");
        Assert.Contains("M-01: Ride-on", bench, StringComparison.Ordinal);
        Assert.Contains("P-ride-on-1: Ride-on machine", bench, StringComparison.Ordinal);
        Assert.DoesNotContain("tech-05", bench, StringComparison.Ordinal);

        var begun = await TextAsync(
            technician,
            "bench?machine=M-01&task=height-check&procedure=&person=tech-01"
        );
        Assert.Contains(
            "\"machine\": { \"id\": \"M-01\"",
            Spaces().Replace(begun, " "),
            StringComparison.Ordinal
        );
        using var without = await technician.GetAsync(
            "bench?machine=M-02&task=height-check&procedure=&person=tech-01"
        );
        Assert.Contains(
            "No written procedure covers M-02 today",
            WebUtility.HtmlDecode(await without.Content.ReadAsStringAsync()),
            StringComparison.Ordinal
        );
    }

    [GeneratedRegex("first sign-in:.*?<code[^>]*>([^<]+)</code>", RegexOptions.Singleline)]
    private static partial Regex Given();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
