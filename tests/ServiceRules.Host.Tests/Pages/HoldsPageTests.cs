using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>All holds at one page: on records, machines, people and days.</summary>
public sealed class HoldsPageTests(FiledShop shop, TwoSites sites)
    : IClassFixture<FiledShop>,
        IClassFixture<TwoSites>
{
    private readonly ServiceRun _run = shop.Run;

    [Fact]
    public async Task Hold_OnAMachine_KeepsItsRecordsUntilItIsLifted()
    {
        using var officer = _run.ClientWith(_run.NewKey(Roles.Officer));
        (string, string)[] machine =
        [
            ("record", ""),
            ("machine", "M-02"),
            ("until", "2026-04-14"),
            ("reason", "an injury"),
            ("by", "officer-01"),
        ];

        var held = await SentPage.SendAsync(officer, "holds", machine);
        var again = await SentPage.SendAsync(officer, "holds", machine);

        Assert.Equal(303, held.Status);
        Assert.Equal(held.Place, again.Place);
        Assert.Contains(
            "<strong>H-1 keeps what is named: machine M-02, until 2026-04-14.</strong>",
            (await SentPage.GetAsync(officer, held.Place)).Html,
            StringComparison.Ordinal
        );
        var kept = await SentPage.GetAsync(officer, "records/J-1");
        Assert.Contains("H-1 holds</strong>. Keeps: machine M-02", kept.Html, StringComparison.Ordinal);
        var later = await SentPage.GetAsync(officer, "records/J-3");
        Assert.Contains("No hold keeps this record.", later.Html, StringComparison.Ordinal);

        (string, string)[] why = [("reason", "settled"), ("by", "officer-01")];
        var without = await SentPage.SendAsync(officer, "holds/H-1/lift");
        var none = await SentPage.SendAsync(officer, "holds/H-9/lift", why);
        var lifted = await SentPage.SendAsync(officer, "holds/H-1/lift", why);
        var once = await SentPage.SendAsync(officer, "holds/H-1/lift", why);
        Assert.Equal((422, 404, 303), (without.Status, none.Status, lifted.Status));
        Assert.Equal(lifted.Place, once.Place);
        Assert.Contains(
            "H-1 is lifted.",
            (await SentPage.GetAsync(officer, lifted.Place)).Html,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("", "", "", "It names nothing that is kept")]
    [InlineData("no identity!", "", "", "href=\"#hold-record\">")]
    [InlineData("", "1.4.2026", "", "href=\"#hold-from\">")]
    [InlineData("", "2026-04-30", "2026-04-01", "Its last day is before its first")]
    public async Task Hold_ThatCannotBe_IsRefused(string record, string from, string until, string told)
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead, "lead-01"));

        var answer = await SentPage.SendAsync(
            lead,
            "holds",
            ("record", record),
            ("from", from),
            ("until", until),
            ("reason", "kept apart")
        );

        Assert.Equal(422, answer.Status);
        Assert.Contains(told, answer.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"kept apart\"", answer.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Holds_ToAnOfficerOfOneOfSeveralSites_AreNotShownNorTaken()
    {
        using var officer = sites.As(Roles.Officer, TwoSites.First);
        using var every = sites.As(Roles.Officer, GrantedSite.Every);
        (string, string)[] why = [("reason", "kept"), ("by", "officer-01")];

        var page = await SentPage.GetAsync(officer, "records/J-A1");
        var list = await SentPage.GetAsync(officer, "holds");
        var held = await SentPage.SendAsync(officer, "records/J-A1/holds", why);
        var listed = await SentPage.SendAsync(officer, "holds", [.. why, ("machine", "M-02")]);
        var other = await SentPage.SendAsync(officer, "records/J-B1/comments", ("text", "x"));
        var own = await SentPage.SendAsync(every, "records/J-B1/holds", why);

        Assert.Equal(
            (200, 403, 403, 403, 404, 303),
            (page.Status, list.Status, held.Status, listed.Status, other.Status, own.Status)
        );
        Assert.DoesNotContain("/holds", page.Html, StringComparison.Ordinal);
        Assert.Contains("File the comment", page.Html, StringComparison.Ordinal);
    }
}
