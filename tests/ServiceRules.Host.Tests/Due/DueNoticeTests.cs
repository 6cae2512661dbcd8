using System.Text;
using System.Text.Json;
using MimeKit;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Due;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Tests.Accounts;
using ServiceRules.Host.Tests.Notices;

namespace ServiceRules.Host.Tests.Due;

public sealed class DueNoticeTests
{
    private const string Secret = "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz";

    // The training of one ran out; that of the others runs out on 31 January 2027, the calibration of HG-01 on 10 January.
    private static readonly DateTimeOffset InTime = new(2026, 12, 20, 12, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset Later = new(2027, 1, 5, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task Due_ByWhoeverIsToldOfIt_IsToldOnceAndWithoutPeople()
    {
        await using var receiver = await Receiver.StartAsync();
        await using var other = await Receiver.StartAsync();
        using var folder = new NoticeFolder(
            $$"""
            "webhooks": [
              { "name": "workshop", "address": "{{receiver.Address}}", "secret": "{{Secret}}", "on": ["due"] },
              { "name": "others", "address": "{{other.Address}}", "secret": "{{Secret}}", "on": ["stop"] }
            ]
            """
        );
        await using (var run = await StartAsync(folder, InTime))
        {
            await FileAsync(run);
            _ = Go(run);
            Assert.Equal(0, Go(run));
            var (heard, told) = (await receiver.UntilAsync(2))
                .Select(one => (one, JsonDocument.Parse(one.Body).RootElement))
                .Single(one => one.RootElement.GetProperty("kind").GetString() == "calibration");
            Assert.Equal("service-due-notice/1", told.GetProperty("format").GetString());
            Assert.Equal(heard.Id, told.GetProperty("id").GetString());
            Assert.Equal("calibration", told.GetProperty("kind").GetString());
            Assert.Equal("HG-01", told.GetProperty("thing").GetString());
            Assert.Equal("2027-01-10", told.GetProperty("due").GetString());
            Assert.Equal("https://service.example/due", told.GetProperty("link").GetString());
            await UntilNoneWaitAsync(run);
        }

        foreach (var file in Directory.GetFiles(folder.Ledger, "work.db*"))
        {
            File.Delete(file);
        }

        await using var next = await StartAsync(folder, Later);
        var all = await receiver.UntilAsync(
            1 + next.Get<ServedSites>().Home.Registers.People.Count(one => one.TrainedUntil is not null)
        );

        var trainings = all.Select(one => Encoding.UTF8.GetString(one.Body))
            .Where(body => !body.Contains("\"calibration\"", StringComparison.Ordinal))
            .ToList();
        Assert.Equal(all.Count - 1, trainings.Count);
        Assert.All(trainings, body => Assert.Contains("\"training\"", body, StringComparison.Ordinal));
        Assert.All(trainings, body => Assert.DoesNotContain("thing", body, StringComparison.Ordinal));
        Assert.DoesNotContain(trainings, body => body.Contains("tech-", StringComparison.Ordinal));
        Assert.Equal(all.Count, all.Select(one => one.Id).Distinct().Count());
        await UntilNoneWaitAsync(next);
        Assert.Equal(0, Go(next));
        Assert.Equal(all.Count, receiver.All.Count);
        Assert.Empty(other.All);
    }

    [Fact]
    public async Task Due_ByMail_SaysWhatAndWhen()
    {
        await using var server = await MailServer.StartAsync();
        using var folder = new NoticeFolder(
            $$"""
            "mail": { "server": "127.0.0.1", "port": {{server.Port}}, "security": "none", "from": "service@shop.example",
              "to": [{ "name": "leads", "address": "leads@shop.example", "on": ["due", "hold"] }] }
            """
        );
        await using var run = await StartAsync(folder, InTime);
        await FileAsync(run);
        _ = Go(run);

        MimeMessage[] mails = [await server.NextAsync(), await server.NextAsync()];

        Assert.Equal(
            ["due 2026-07-31: training", "due 2027-01-10: calibration, HG-01"],
            mails.Select(mail => mail.Subject).Order(StringComparer.Ordinal)
        );
        Assert.All(
            mails,
            mail => Assert.Contains("https://service.example/due", mail.TextBody, StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task Due_GivenUp_IsListedAndTriedAnew()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 500;
        using var folder = new NoticeFolder(
            $$"""
            "webhooks": [{ "name": "workshop", "address": "{{receiver.Address}}", "secret": "{{Secret}}", "on": ["due"] }]
            """
        );
        await using var run = await StartAsync(folder, InTime);
        await FileAsync(run);
        _ = Go(run);
        _ = await receiver.UntilAsync(2);
        await UntilNoneWaitAsync(run);

        var all = (await run.GetJsonAsync("api/notices")).GetProperty("items").EnumerateArray().ToList();
        Assert.Equal(2, all.Count);
        var listed = all[0];
        Assert.False(listed.TryGetProperty("entry", out _));
        var id = listed.GetProperty("id").GetString()!;
        Assert.EndsWith("-due1-workshop", id, StringComparison.Ordinal);
        receiver.Answer = _ => 204;
        using var retried = await run.PostAsync($"api/notices/{Uri.EscapeDataString(id)}/retry", []);
        Assert.True(retried.IsSuccessStatusCode);
        var heard = await receiver.UntilAsync(3);

        Assert.Equal(id, heard[2].Id);
        Assert.Contains(heard.Take(2), one => one.Id == id);
        await UntilNoneWaitAsync(run);
        Assert.Equal(NoticeState.Delivered, run.Get<INoticeStore>().Find(-1, "workshop")!.State);
    }

    [Fact]
    public async Task Due_WhereNobodyIsToldOfIt_IsKeptForWhoIsNamedLater()
    {
        await using var receiver = await Receiver.StartAsync();
        using var folder = new NoticeFolder(NoticeFiling.Webhooks(("workshop", receiver.Address)));
        await using (var run = await StartAsync(folder, InTime))
        {
            await FileAsync(run);
            Assert.Equal(0, Go(run));
        }

        var settings = Path.Combine(folder.Place, "data", "notices.json");
        File.WriteAllText(
            settings,
            (await File.ReadAllTextAsync(settings)).Replace(
                "\"name\": \"workshop\"",
                "\"name\": \"workshop\", \"on\": [\"due\"]",
                StringComparison.Ordinal
            )
        );
        await using var next = await StartAsync(folder, InTime);
        _ = Go(next);

        Assert.Equal(2, (await receiver.UntilAsync(2)).Count);
    }

    private static Task<ServiceRun> StartAsync(NoticeFolder folder, DateTimeOffset now) =>
        folder.StartAsync(clock: new MovedClock { Ahead = now - TimeProvider.System.GetUtcNow() });

    private static int Go(ServiceRun run) =>
        run.Get<DueDesk>().Go(run.Get<ServedSites>().Home, CancellationToken.None);

    private static async Task FileAsync(ServiceRun run)
    {
        using var filed = await run.PostAsync("api/records", ServiceRun.Record("height-check"));
        Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
    }

    private static async Task UntilNoneWaitAsync(ServiceRun run)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (run.Get<INoticeStore>().Count().Waiting > 0)
        {
            await Task.Delay(20, enough.Token);
        }
    }
}
