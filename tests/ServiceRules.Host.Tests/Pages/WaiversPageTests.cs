using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>Waivers, entered and withdrawn at a page.</summary>
public sealed class WaiversPageTests : IAsyncLifetime
{
    private ServiceRun _run = null!;

    public async Task InitializeAsync() => _run = await ServiceRun.StartAsync();

    public async Task DisposeAsync() => await _run.DisposeAsync();

    private static (string, string)[] Waiver(
        string rule = "height-on-target",
        string by = "lead-01",
        string until = "2026-04-30"
    ) =>
        [
            ("rule", rule),
            ("unit", ""),
            ("from", "2026-04-01"),
            ("until", until),
            ("reason", "the wet spring"),
            ("by", by),
        ];

    [Fact]
    public async Task Waiver_EnteredAndWithdrawn_IsToldAndDoneOnceHoweverOftenItIsSent()
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead));

        var entered = await SentPage.SendAsync(lead, "waivers", Waiver());
        var again = await SentPage.SendAsync(lead, "waivers", Waiver());

        Assert.Equal(303, entered.Status);
        Assert.Equal(entered.Place, again.Place);
        var page = await SentPage.GetAsync(lead, entered.Place);
        Assert.Contains("W-1 is entered.", page.Html, StringComparison.Ordinal);
        Assert.Contains("<strong>W-1 counts</strong>", page.Html, StringComparison.Ordinal);
        Assert.Contains("on all units, 2026-04-01 until 2026-04-30", page.Html, StringComparison.Ordinal);
        Assert.Contains("By lead-01: the wet spring", page.Html, StringComparison.Ordinal);
        var told = Assert.Single(
            (await _run.GetJsonAsync("api/waivers")).GetProperty("waivers").EnumerateArray()
        );
        Assert.Equal("height-on-target", told.GetProperty("rule").GetString());

        using var officer = _run.ClientWith(_run.NewKey(Roles.Officer));
        var seen = await SentPage.GetAsync(officer, "waivers");
        Assert.Contains("W-1 counts", seen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("method=\"post\"", seen.Html, StringComparison.Ordinal);

        var without = await SentPage.SendAsync(lead, "waivers/W-1/withdrawal");
        var named = await SentPage.SendAsync(lead, "waivers/W-1/withdrawal", ("reason", "tech-02 asked"));
        var withdrawn = await SentPage.SendAsync(lead, "waivers/W-1/withdrawal", ("reason", "it is dry"));
        var once = await SentPage.SendAsync(lead, "waivers/W-1/withdrawal", ("reason", "it is dry"));
        Assert.Equal((422, 422, 303), (without.Status, named.Status, withdrawn.Status));
        Assert.Contains("#withdraw-W-1-reason\">It is not said why", without.Html, StringComparison.Ordinal);
        Assert.Equal(withdrawn.Place, once.Place);
        var after = await SentPage.GetAsync(lead, withdrawn.Place);
        Assert.Contains("W-1 is withdrawn.", after.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Withdraw W-1", after.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Waiver_ThatCannotBe_IsRefusedAtItsFields()
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead));

        var nothing = await SentPage.SendAsync(lead, "waivers");
        var unknown = await SentPage.SendAsync(lead, "waivers", Waiver("no-such-rule", "tech-03"));
        var days = await SentPage.SendAsync(lead, "waivers", Waiver(until: "2026-03-31"));
        var none = await SentPage.SendAsync(lead, "waivers/W-7/withdrawal", ("reason", "x"));

        Assert.Equal((422, 422, 422, 404), (nothing.Status, unknown.Status, days.Status, none.Status));
        foreach (var field in new[] { "rule", "from", "until", "reason", "by" })
        {
            Assert.Contains($"id=\"enter-{field}-wrong\"", nothing.Html, StringComparison.Ordinal);
        }

        Assert.Contains("id=\"enter-rule-wrong\"", unknown.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"enter-by-wrong\"", unknown.Html, StringComparison.Ordinal);
        Assert.Contains(
            "#enter-until\">The last day is before the first",
            days.Html,
            StringComparison.Ordinal
        );
        Assert.Contains(">the wet spring</textarea>", days.Html, StringComparison.Ordinal);
        Assert.Empty((await _run.GetJsonAsync("api/waivers")).GetProperty("waivers").EnumerateArray());
    }

    [Fact]
    public async Task Waiver_OfARuleThatStops_IsNotOffered()
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead));
        var rules = ServiceRun.Rules.Book.Packs.SelectMany(pack => pack.Rules).ToList();

        var page = (await SentPage.GetAsync(lead, "waivers")).Html;

        Assert.All(
            rules,
            rule =>
                Assert.Equal(
                    rule.Severity is not Domain.Verdicts.Severity.Stop,
                    page.Contains($"<option value=\"{rule.Id.Text}\"", StringComparison.Ordinal)
                )
        );
    }

    [Fact]
    public async Task Waiver_AtSeveralSites_IsOfTheOneThatIsChosen()
    {
        var folder = Directory.CreateTempSubdirectory("servicerules-waivers-").FullName;
        try
        {
            await using var run = await ServiceRun.StartAsync(
                null,
                settings => TwoSites.WithSecond(settings, folder)
            );
            using var every = run.ClientWith(run.NewKey(Roles.Lead, site: GrantedSite.Every));
            using var first = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.First));

            var none = await SentPage.SendAsync(every, "waivers", Waiver());
            var one = await SentPage.SendAsync(every, "waivers", [.. Waiver(), ("site", TwoSites.Second)]);
            var other = await SentPage.SendAsync(first, "waivers", [.. Waiver(), ("site", TwoSites.Second)]);
            var taken = await SentPage.SendAsync(first, "waivers/W-1/withdrawal", ("reason", "x"));

            Assert.Equal((422, 303, 403, 404), (none.Status, one.Status, other.Status, taken.Status));
            Assert.Contains(
                $"<strong>W-1 counts</strong>, {TwoSites.Second}",
                (await SentPage.GetAsync(every, one.Place)).Html,
                StringComparison.Ordinal
            );
            Assert.DoesNotContain(
                "W-1",
                (await SentPage.GetAsync(first, one.Place)).Html,
                StringComparison.Ordinal
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
