using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Notices;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>Whom the settings name for a site is told of it alone, and its notices are seen by whoever is of it.</summary>
public sealed class NoticesOfASiteTests
{
    private const string Secret = "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz";

    [Fact]
    public async Task Notices_OfASite_GoToItsRecipientsAndAreSeenByItsOwn()
    {
        await using var first = await Receiver.StartAsync();
        await using var second = await Receiver.StartAsync();
        first.Answer = second.Answer = _ => 500;
        using var folder = new NoticeFolder(
            $$"""
            "webhooks": [
              { "name": "of-first", "address": "{{first.Address}}", "secret": "{{Secret}}", "site": "{{TwoSites.First}}" },
              { "name": "of-second", "address": "{{second.Address}}", "secret": "{{Secret}}", "site": "{{TwoSites.Second}}" }
            ]
            """
        );
        await using var run = await ServiceRun.StartAsync(
            folder.Place,
            settings => TwoSites.WithSecond(settings, folder.Place) with { NoticePauses = [] }
        );
        using var ofFirst = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.First));
        using var ofSecond = run.ClientWith(run.NewKey(Roles.Lead, site: TwoSites.Second));

        var job = TwoSites.Job("J-told", "13", ("3.82 mm", "4.90 mm"));
        Assert.Equal(201, (await TwoSites.PostAsync(ofSecond, "api/records", job)).Status);
        _ = await second.UntilAsync(1);

        var notice = await GivenUpAsync(ofSecond);
        Assert.Equal("of-second", notice.GetProperty("recipient").GetString());
        Assert.Empty(first.All);
        Assert.DoesNotContain(
            "of-second",
            (await TwoSites.GetAsync(ofFirst, "api/notices")).Body,
            StringComparison.Ordinal
        );
        var retry = $"api/notices/{Uri.EscapeDataString(notice.GetProperty("id").GetString()!)}/retry";
        Assert.Equal(404, (await TwoSites.PostAsync(ofFirst, retry, [])).Status);
        Assert.Equal(200, (await TwoSites.PostAsync(ofSecond, retry, [])).Status);
    }

    private static async Task<JsonElement> GivenUpAsync(HttpClient client)
    {
        for (var tries = 0; tries < 100; tries++)
        {
            using var listed = JsonDocument.Parse((await TwoSites.GetAsync(client, "api/notices")).Body);
            foreach (var notice in listed.RootElement.GetProperty("items").EnumerateArray())
            {
                return notice.Clone();
            }

            await Task.Delay(100);
        }

        throw new TimeoutException("no notice was given up");
    }
}
