using System.Text.RegularExpressions;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Tests.Notices;

namespace ServiceRules.Host.Tests.Pages;

/// <summary>Notices that were given up, tried anew at a page.</summary>
public sealed partial class NoticesPageTests
{
    [Fact]
    public async Task Notice_GivenUp_IsListedAndTriedAnew()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 500;
        using var folder = new NoticeFolder(NoticeFiling.Webhooks(("workshop", receiver.Address)));
        await using var run = await folder.StartAsync();
        await NoticeFiling.FileAsync(run, "N-2");
        await UntilAsync(() => run.Get<INoticeStore>().Count().GivenUp == 1);
        using var lead = run.ClientWith(run.NewKey(Roles.Lead));
        using var administrator = run.ClientWith(run.NewKey(Roles.Administrator));

        var page = (await SentPage.GetAsync(lead, "notices")).Html;

        Assert.Contains(">workshop</th>", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/records/N-2\"", page, StringComparison.Ordinal);
        Assert.Contains("answered 500", page, StringComparison.Ordinal);
        var blind = (await SentPage.GetAsync(administrator, "notices")).Html;
        Assert.Contains("answered 500", blind, StringComparison.Ordinal);
        Assert.DoesNotContain("N-2", blind, StringComparison.Ordinal);
        Assert.Contains(
            "None is in this state.",
            (await SentPage.GetAsync(lead, "notices?state=waiting")).Html,
            StringComparison.Ordinal
        );

        receiver.Answer = _ => 200;
        var asked = await SentPage.SendAsync(lead, Retry().Match(page).Groups[1].Value);
        Assert.Equal(303, asked.Status);
        await UntilAsync(() => run.Get<INoticeStore>().Count() is { Waiting: 0, GivenUp: 0 });
        Assert.Contains(
            "<strong>The notice for workshop: delivered.</strong>",
            (await SentPage.GetAsync(lead, asked.Place)).Html,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "href=\"/records/N-2\"",
            (await SentPage.GetAsync(lead, "notices?state=delivered")).Html,
            StringComparison.Ordinal
        );
        Assert.Equal(404, (await SentPage.SendAsync(lead, "notices/none/retry")).Status);
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        var until = DateTime.UtcNow.AddSeconds(60);
        while (!isSo())
        {
            Assert.True(DateTime.UtcNow < until);
            await Task.Delay(50);
        }
    }

    [GeneratedRegex("action=\"/(notices/[^\"]+/retry)\"")]
    private static partial Regex Retry();
}
