using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Notices;

namespace ServiceRules.Host.Tests.Notices;

public sealed class NoticeTests
{
    private static readonly byte[] Secret = [.. Enumerable.Range(0, 32).Select(number => (byte)number)];

    [Fact]
    public async Task Webhook_OfAHold_IsToldOnceSignedAndWithoutPeople()
    {
        await using var receiver = await Receiver.StartAsync();
        using var folder = new NoticeFolder(Webhook(receiver.Address));
        await using var run = await folder.StartAsync();

        await FileAsync(run, "N-1", "3.82 mm");
        await FileAsync(run, "N-2", "4.90 mm");
        var heard = Assert.Single(await receiver.UntilAsync(1));

        var told = JsonDocument.Parse(heard.Body).RootElement;
        Assert.Equal("service-notice/1", told.GetProperty("format").GetString());
        Assert.Equal(heard.Id, told.GetProperty("id").GetString());
        Assert.Equal("N-2", told.GetProperty("record").GetString());
        Assert.Equal("hold", told.GetProperty("disposition").GetString());
        Assert.Equal("hold", told.GetProperty("units")[0].GetProperty("disposition").GetString());
        Assert.Equal("https://service.example/records/N-2", told.GetProperty("link").GetString());
        Assert.DoesNotContain("tech-", Encoding.UTF8.GetString(heard.Body), StringComparison.Ordinal);
        var signed = Encoding.UTF8.GetBytes($"{heard.Id}.{heard.At}.").Concat(heard.Body).ToArray();
        Assert.Equal("v1," + Convert.ToBase64String(HMACSHA256.HashData(Secret, signed)), heard.Signature);
        var at = DateTimeOffset.FromUnixTimeSeconds(long.Parse(heard.At, CultureInfo.InvariantCulture));
        Assert.InRange(
            TimeProvider.System.GetUtcNow() - at,
            TimeSpan.FromSeconds(-5),
            TimeSpan.FromMinutes(2)
        );
        await UntilNoneWaitAsync(run);
        Assert.Equal(NoticeState.Delivered, Find(run, told).State);
    }

    [Fact]
    public async Task Webhook_ThatFails_IsTriedAgainUnderTheSameId()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = count => count < 3 ? 500 : 200;
        using var folder = new NoticeFolder(Webhook(receiver.Address));
        await using var run = await folder.StartAsync(pauses: 5);

        await FileAsync(run, "N-2", "4.90 mm");
        var heard = await receiver.UntilAsync(3);
        await UntilNoneWaitAsync(run);

        Assert.Single(heard.Select(one => one.Id).Distinct());
        Assert.Equal(3, Find(run, JsonDocument.Parse(heard[0].Body).RootElement).Attempts);
        Assert.Equal(3, receiver.All.Count);
    }

    [Fact]
    public async Task Webhook_ThatRedirects_IsNotFollowedAndGivenUpAndShown()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 307;
        using var folder = new NoticeFolder(Webhook(receiver.Address));
        await using var run = await folder.StartAsync(pauses: 1);

        await FileAsync(run, "N-2", "4.90 mm");
        _ = await receiver.UntilAsync(2);
        await UntilNoneWaitAsync(run);

        var health = await run.GetJsonAsync("health/ready");
        Assert.Equal("ready", health.GetProperty("status").GetString());
        Assert.Equal(
            "0 wait, 1 given up",
            health.GetProperty("parts").GetProperty("notices").GetProperty("told").GetString()
        );
        var act = run
            .Service.Services.GetAccounts()
            .Acts(null, 10)
            .Single(one => one.What == "notice-given-up");
        Assert.EndsWith("/workshop", act.About, StringComparison.Ordinal);
        Assert.Equal("answered 307", act.Detail);
    }

    [Fact]
    public async Task Notice_OwedWhenTheServiceEnded_IsSentAtTheNextStartWithoutItsQueue()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 503;
        using var folder = new NoticeFolder(Webhook(receiver.Address));
        await using (var first = await folder.StartAsync(pauses: 5, pause: TimeSpan.FromHours(1)))
        {
            await FileAsync(first, "N-2", "4.90 mm");
            _ = await receiver.UntilAsync(1);
        }

        foreach (var file in Directory.GetFiles(folder.Ledger, "work.db*"))
        {
            File.Delete(file);
        }

        receiver.Answer = _ => 200;
        await using var run = await folder.StartAsync();
        var heard = await receiver.UntilAsync(2);

        Assert.Equal(heard[0].Id, heard[1].Id);
    }

    [Fact]
    public async Task Submission_WhileARecipientHangs_IsAnsweredAtOnce()
    {
        await using var receiver = await Receiver.StartAsync();
        using var hang = new SemaphoreSlim(0);
        receiver.Answer = _ => hang.Wait(TimeSpan.FromSeconds(10)) ? 200 : 500;
        using var folder = new NoticeFolder(Webhook(receiver.Address));
        await using var run = await folder.StartAsync();
        await FileAsync(run, "N-2", "4.90 mm");
        _ = await receiver.UntilAsync(1);
        var began = TimeProvider.System.GetTimestamp();

        await FileAsync(run, "N-3", "4.90 mm");

        Assert.InRange(TimeProvider.System.GetElapsedTime(began), TimeSpan.Zero, TimeSpan.FromSeconds(5));
        hang.Release(2);
    }

    [Fact]
    public async Task Mail_OfAHold_ReachesTheServerThatTheSettingsName()
    {
        await using var server = await MailServer.StartAsync();
        using var folder = new NoticeFolder(
            $$"""
            "mail": { "server": "127.0.0.1", "port": {{server.Port}}, "security": "none", "from": "service@shop.example",
              "to": [{ "name": "leads", "address": "leads@shop.example" }, { "name": "night", "address": "night@shop.example", "on": ["stop"] }] }
            """
        );
        await using var run = await folder.StartAsync();

        await FileAsync(run, "N-2", "4.90 mm");
        var mail = await server.NextAsync();

        Assert.Equal("hold: N-2", mail.Subject);
        Assert.Equal("leads@shop.example", mail.To.Mailboxes.Single().Address);
        Assert.Contains("https://service.example/records/N-2", mail.TextBody, StringComparison.Ordinal);
        Assert.EndsWith("-leads@service.example", mail.MessageId, StringComparison.Ordinal);
        await UntilNoneWaitAsync(run);
        Assert.Equal(1, server.Count);
    }

    [Fact]
    public async Task Mail_ByAServerThatCannotWhatIsAskedOfIt_IsGivenUpAndShown()
    {
        await using var server = await MailServer.StartAsync();
        using var folder = new NoticeFolder(
            $$"""
            "mail": { "server": "127.0.0.1", "port": {{server.Port}}, "security": "starttls", "from": "service@shop.example",
              "to": [{ "name": "leads", "address": "leads@shop.example" }] }
            """
        );
        await using var run = await folder.StartAsync(pauses: 1);

        await FileAsync(run, "N-2", "4.90 mm");
        await UntilNoneWaitAsync(run);

        var act = Assert.Single(
            run.Service.Services.GetAccounts().Acts(null, 10),
            one => one.What == "notice-given-up"
        );
        Assert.Equal("the mail server did not take it: NotSupportedException", act.Detail);
        Assert.Equal(0, server.Count);
    }

    private static string Webhook(Uri address) =>
        $$"""
            "webhooks": [{ "name": "workshop", "address": "{{address}}", "secret": "whsec_{{Convert.ToBase64String(
                Secret
            )}}" }]
            """;

    private static Notice Find(ServiceRun run, JsonElement told) =>
        run.Get<INoticeStore>().Find(told.GetProperty("entry").GetInt64(), "workshop")!;

    private static async Task UntilNoneWaitAsync(ServiceRun run)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (run.Get<INoticeStore>().Count().Waiting > 0)
        {
            await Task.Delay(20, enough.Token);
        }
    }

    private static async Task FileAsync(ServiceRun run, string id, string height)
    {
        using var filed = await run.PostAsync(
            "api/records",
            ServiceRun.Record("height-check", ("F-height-check", id), ("3.82 mm", height))
        );
        Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
    }
}
