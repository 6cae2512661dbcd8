using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>Signed reports of a period and lists, asked for and fetched at a page.</summary>
public sealed class FilesPageTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private static readonly (string, string)[] April =
    [
        ("what", "safe-work.pdf"),
        ("from", "2026-04-01"),
        ("until", "2026-04-30"),
    ];

    private readonly ServiceRun _run = shop.Run;

    private HttpClient As(Roles roles) => _run.ClientWith(_run.NewKey(roles));

    [Fact]
    public async Task Report_OfAPeriod_IsAskedForOnceAndFetchedWhenItIsDone()
    {
        using var officer = As(Roles.Officer);

        var asked = await SentPage.SendAsync(officer, "files", April);
        var again = await SentPage.SendAsync(officer, "files", April);

        Assert.Equal(303, asked.Status);
        Assert.Equal(asked.Place, again.Place);
        var told = await SentPage.GetAsync(officer, asked.Place);
        Assert.Contains(
            "<strong>Asked for: Signed report of safe work (PDF), 2026-04-01 until 2026-04-30",
            told.Html,
            StringComparison.Ordinal
        );
        var page = await UntilReadyAsync(officer);
        Assert.Contains("ready: 3 jobs, ", page, StringComparison.Ordinal);
        Assert.Matches("entry [0-9]+ of the log", page);
        var id = asked.Place.Split('=')[1].Split('#')[0];
        Assert.Contains($"href=\"/api/exports/{id}/proof\"", page, StringComparison.Ordinal);
        var file = await officer.GetByteArrayAsync(new Uri($"api/exports/{id}/file", UriKind.Relative));
        Assert.Equal("%PDF-"u8.ToArray(), file[..5]);
        // Also when it was done between two presses.
        Assert.Equal(asked.Place, (await SentPage.SendAsync(officer, "files", April)).Place);
        using var other = As(Roles.Officer);
        var seen = await SentPage.GetAsync(other, asked.Place);
        Assert.Contains("None is kept.", seen.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Asked for: ", seen.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_OfTheSameDays_IsTheListOfTheInterface()
    {
        using var lead = As(Roles.Lead);

        var asked = await SentPage.SendAsync(
            lead,
            "files",
            ("what", "records.csv"),
            ("from", "2026-04-14"),
            ("until", "")
        );

        Assert.Equal(303, asked.Status);
        var page = await UntilReadyAsync(lead);
        Assert.Contains("from 2026-04-14 on", page, StringComparison.Ordinal);
        Assert.Contains("ready: 2 rows, ", page, StringComparison.Ordinal);
        Assert.DoesNotContain(">Proof<", page, StringComparison.Ordinal);
        var id = asked.Place.Split('=')[1].Split('#')[0];
        Assert.Equal(
            await lead.GetStringAsync(new Uri("api/exports/records.csv?from=2026-04-14", UriKind.Relative)),
            await lead.GetStringAsync(new Uri($"api/exports/{id}/file", UriKind.Relative))
        );
    }

    [Theory]
    [InlineData("safe-work.pdf", "", "2026-04-30", "#ask-from\">A report is of a period")]
    [InlineData("safe-work.pdf", "2026-04-30", "2026-04-01", "#ask-until\">The last day is before the first")]
    [InlineData("records.csv", "1.4.2026", "", "#ask-from\">")]
    [InlineData("", "", "", "#ask-what\">It is not said what is wanted")]
    [InlineData("accounts.csv", "", "", "#ask-what\">It is not said what is wanted")]
    public async Task Form_ThatCannotBe_IsRefusedAtItsField(
        string what,
        string from,
        string until,
        string told
    )
    {
        using var officer = As(Roles.Officer);

        var answer = await SentPage.SendAsync(
            officer,
            "files",
            ("what", what),
            ("from", from),
            ("until", until)
        );

        Assert.Equal(422, answer.Status);
        Assert.Contains(told, answer.Html, StringComparison.Ordinal);
        Assert.Contains("None is kept.", answer.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_OfWhoSeesSeveralSites_IsOfOneOfThem()
    {
        var folder = Directory.CreateTempSubdirectory("servicerules-files-").FullName;
        try
        {
            await using var run = await ServiceRun.StartAsync(
                null,
                settings => TwoSites.WithSecond(settings, folder)
            );
            using var every = run.ClientWith(run.NewKey(Roles.Officer, site: GrantedSite.Every));
            using var first = run.ClientWith(run.NewKey(Roles.Officer, site: TwoSites.First));

            var none = await SentPage.SendAsync(every, "files", April);
            var one = await SentPage.SendAsync(every, "files", [.. April, ("site", TwoSites.Second)]);
            var other = await SentPage.SendAsync(first, "files", [.. April, ("site", TwoSites.Second)]);

            Assert.Equal((422, 303, 403), (none.Status, one.Status, other.Status));
            Assert.Contains("#ask-site\">A report is of one site", none.Html, StringComparison.Ordinal);
            Assert.Contains(
                TwoSites.Second,
                (await SentPage.GetAsync(every, one.Place)).Html,
                StringComparison.Ordinal
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<string> UntilReadyAsync(HttpClient client)
    {
        var until = DateTime.UtcNow.AddSeconds(90);
        while (true)
        {
            var page = (await SentPage.GetAsync(client, "files")).Html;
            if (page.Contains("ready: ", StringComparison.Ordinal))
            {
                return page;
            }

            Assert.True(DateTime.UtcNow < until, page);
            await Task.Delay(200);
        }
    }
}
