using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>What the page of a record takes of leads and officers: comments, holds, and that holds are lifted.</summary>
public sealed class RecordActsTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private HttpClient As(Roles roles, string? person = null) => _run.ClientWith(_run.NewKey(roles, person));

    private async Task<int> CommentsAsync(string record) =>
        (await _run.GetJsonAsync($"api/records/{record}")).GetProperty("comments").GetArrayLength();

    [Fact]
    public async Task Comment_OfAnOfficer_StandsAtThePageWithWhoAndWhen()
    {
        using var officer = As(Roles.Officer);
        (string, string)[] said = [("text", "Read twice.\r\nSee the photo."), ("by", "officer-01")];

        var first = await SentPage.SendAsync(officer, "records/J-1/comments", said);
        var again = await SentPage.SendAsync(officer, "records/J-1/comments", said);

        Assert.Equal(303, first.Status);
        Assert.Equal(first.Place, again.Place);
        Assert.Equal(1, await CommentsAsync("J-1"));
        var page = await SentPage.GetAsync(officer, first.Place);
        Assert.Contains("The comment stands.", page.Html, StringComparison.Ordinal);
        Assert.Contains("<strong>officer-01</strong>, 20", page.Html, StringComparison.Ordinal);
        Assert.Contains("Read twice.\nSee the photo.", page.Html, StringComparison.Ordinal);
        // What was done is told where it was done, and by an address that is made up nothing is.
        var other = await SentPage.GetAsync(
            officer,
            first.Place.Replace("J-1", "J-2", StringComparison.Ordinal)
        );
        Assert.DoesNotContain("The comment stands.", other.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Comment_ThatSaysNothingOfNobody_IsRefusedAtItsFieldsAndKeptThere()
    {
        using var officer = As(Roles.Officer);

        var nothing = await SentPage.SendAsync(officer, "records/J-2/comments");
        var nobody = await SentPage.SendAsync(
            officer,
            "records/J-2/comments",
            ("text", "Worn at <the> left."),
            ("by", "nobody-01")
        );
        var long2001 = await SentPage.SendAsync(
            officer,
            "records/J-2/comments",
            ("text", new string('x', 2001)),
            ("by", "officer-01")
        );

        Assert.Equal((422, 422, 422), (nothing.Status, nobody.Status, long2001.Status));
        Assert.Contains("href=\"#comment-text\">Nothing is said", nothing.Html, StringComparison.Ordinal);
        Assert.Contains("href=\"#comment-by\">It is not said who", nothing.Html, StringComparison.Ordinal);
        Assert.Contains("`nobody-01` is not in the register", nobody.Html, StringComparison.Ordinal);
        Assert.Contains(">Worn at <the> left.</textarea>", nobody.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"comment-text-wrong\"", long2001.Html, StringComparison.Ordinal);
        Assert.Equal(0, await CommentsAsync("J-2"));
    }

    [Fact]
    public async Task Comment_OfAnAccountThatStandsForSomebody_IsOfThatPersonWhoeverElseIsSent()
    {
        using var officer = As(Roles.Officer, "officer-01");

        var page = await SentPage.GetAsync(officer, "records/J-3");
        var sent = await SentPage.SendAsync(
            officer,
            "records/J-3/comments",
            ("text", "Seen."),
            ("by", "lead-01")
        );

        Assert.Contains("officer-01 answers for it.", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"by\"", page.Html, StringComparison.Ordinal);
        var shown = await SentPage.GetAsync(officer, sent.Place);
        Assert.Contains("<strong>officer-01</strong>, 20", shown.Html, StringComparison.Ordinal);
        // A technician is told by pseudonym, and has nothing to press.
        using var technician = As(Roles.Technician, "tech-02");
        var seen = await SentPage.GetAsync(technician, sent.Place);
        Assert.Contains("Seen.", seen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("officer-01", seen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("<form", seen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Kept from being erased", seen.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hold_PutOnAndLifted_IsToldAndDoneOnceHoweverOftenItIsSent()
    {
        using var officer = As(Roles.Officer);
        (string, string)[] why = [("reason", "an injury is looked into"), ("by", "officer-01")];

        var held = await SentPage.SendAsync(officer, "records/J-1/holds", why);
        var again = await SentPage.SendAsync(officer, "records/J-1/holds", why);

        Assert.Equal(303, held.Status);
        Assert.Equal(held.Place, again.Place);
        var page = await SentPage.GetAsync(officer, held.Place);
        Assert.Contains("H-1 keeps this record.", page.Html, StringComparison.Ordinal);
        Assert.Contains("by officer-01: an injury is looked into", page.Html, StringComparison.Ordinal);
        Assert.Contains("<strong>H-1 holds</strong>. Keeps: record J-1", page.Html, StringComparison.Ordinal);
        var free = await SentPage.GetAsync(officer, "records/J-2");
        Assert.Contains("No hold keeps this record.", free.Html, StringComparison.Ordinal);

        var elsewhere = await SentPage.SendAsync(officer, "records/J-2/holds/H-1/lift", why);
        var without = await SentPage.SendAsync(officer, "records/J-1/holds/H-1/lift", ("by", "officer-01"));
        var lifted = await SentPage.SendAsync(
            officer,
            "records/J-1/holds/H-1/lift",
            ("reason", "settled"),
            ("by", "lead-01")
        );
        var once = await SentPage.SendAsync(
            officer,
            "records/J-1/holds/H-1/lift",
            ("reason", "settled"),
            ("by", "lead-01")
        );

        Assert.Equal((404, 422, 303), (elsewhere.Status, without.Status, lifted.Status));
        Assert.Contains(
            "href=\"#lift-H-1-reason\">It is not said why",
            without.Html,
            StringComparison.Ordinal
        );
        Assert.Equal(lifted.Place, once.Place);
        var after = await SentPage.GetAsync(officer, lifted.Place);
        Assert.Contains("H-1 is lifted.", after.Html, StringComparison.Ordinal);
        Assert.Contains("by lead-01: settled", after.Html, StringComparison.Ordinal);
        Assert.Single((await _run.GetJsonAsync("api/holds")).GetProperty("holds").EnumerateArray());
    }

    [Theory]
    [InlineData("lead-01 asked", "the reason names `lead-01`")]
    [InlineData("two\nlines", "a sign that is no text")]
    [InlineData("   ", "It is not said why")]
    public async Task Hold_ForAReasonThatCannotBe_IsRefused(string reason, string told)
    {
        using var lead = As(Roles.Lead);

        var answer = await SentPage.SendAsync(
            lead,
            "records/J-2/holds",
            ("reason", reason),
            ("by", "officer-01")
        );

        Assert.Equal(422, answer.Status);
        Assert.Contains(told, answer.Html, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Act_InASession_NeedsTheTokenOfItsPage()
    {
        string password;
        await using (var scope = _run.Service.Services.CreateAsyncScope())
        {
            password = await scope
                .ServiceProvider.GetRequiredService<AccountDesk>()
                .PutAsync("officer.a", Roles.Officer, null, AccountAct.Machine);
        }

        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("officer.a", password));
        (string, string)[] said = [("text", "From a session."), ("by", "officer-01")];

        using var bare = await browser.SendBareAsync("records/J-2/comments", said);
        using var whole = await browser.SendAsync("records/J-2", "records/J-2/comments", said);

        Assert.Equal(403, (int)bare.StatusCode);
        Assert.Equal(303, (int)whole.StatusCode);
    }

    [Fact]
    public async Task Record_ThatIsNotThere_TakesNothing()
    {
        using var officer = As(Roles.Officer);

        foreach (var act in new[] { "comments", "holds", "holds/H-1/lift" })
        {
            var answer = await SentPage.SendAsync(
                officer,
                $"records/J-none/{act}",
                ("text", "x"),
                ("reason", "x"),
                ("by", "officer-01")
            );
            Assert.Equal(404, answer.Status);
        }
    }

    [Fact]
    public async Task Finding_ThatIsOpen_TellsWhatToTurn() =>
        Assert.Contains(
            "<strong>To do:</strong> Move ",
            (await SentPage.GetAsync(_run.Client, "records/J-2")).Html,
            StringComparison.Ordinal
        );
}
