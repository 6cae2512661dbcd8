using System.Net;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Tests.Accounts;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Notices;

/// <summary>Recipients that do not answer, and notices that were given up.</summary>
public sealed class NoticeRetryTests
{
    [Fact]
    public async Task Recipient_ThatHangs_KeepsNobodyElseWaiting()
    {
        const int Filed = 10;
        await using var slow = await Receiver.StartAsync();
        await using var quick = await Receiver.StartAsync();
        using var hang = new SemaphoreSlim(0);
        slow.Answer = _ => hang.Wait(TimeSpan.FromSeconds(60)) ? 200 : 500;
        using var folder = new NoticeFolder(
            NoticeFiling.Webhooks(("a-slow", slow.Address), ("quick", quick.Address))
        );
        await using var run = await folder.StartAsync();
        for (var number = 0; number < Filed; number++)
        {
            await NoticeFiling.FileAsync(run, $"N-{number}");
        }

        _ = await quick.UntilAsync(Filed);

        Assert.InRange(slow.All.Count, 1, 2);
        hang.Release(100);
    }

    [Fact]
    public async Task Notice_ThatTheQueueLost_IsTakenUpWithinTenMinutesWithoutARestart()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 503;
        using var folder = new NoticeFolder(NoticeFiling.Webhooks(("workshop", receiver.Address)));
        var clock = new MovedClock();
        await using var run = await folder.StartAsync(pauses: 5, pause: TimeSpan.FromHours(1), clock: clock);
        await NoticeFiling.FileAsync(run, "N-2");
        _ = await receiver.UntilAsync(1);
        // It is to be tried again in an hour, as other work of the queue is in its time.
        await UntilAsync(() =>
            OnQueue(
                folder,
                "SELECT COUNT(*) FROM QRTZ_TRIGGERS WHERE TRIGGER_NAME LIKE '% %' AND TRIGGER_GROUP = 'notice'"
            ) == 1
        );
        receiver.Answer = _ => 200;
        // What was filed since is looked at from here on.
        await NoticeFiling.FileAsync(run, "N-3", "2026-03-13");
        _ = await receiver.UntilAsync(2);
        await UntilAsync(() => run.Get<INoticeStore>().Count().Waiting == 1);

        // An attempt is kept in one database, when to try again in the other: that one was away.
        _ = OnQueue(
            folder,
            "DELETE FROM QRTZ_SIMPLE_TRIGGERS; DELETE FROM QRTZ_TRIGGERS; DELETE FROM QRTZ_JOB_DETAILS; SELECT 0"
        );
        run.Get<NoticeBell>().Ring();
        await Task.Delay(500);
        Assert.Equal(2, receiver.All.Count);
        clock.Ahead = TimeSpan.FromMinutes(10);
        run.Get<NoticeBell>().Ring();

        var heard = await receiver.UntilAsync(3);
        Assert.Equal(heard[0].Id, heard[2].Id);
    }

    [Fact]
    public async Task Notice_GivenUp_IsListedAndTriedAnewUnderTheSameId()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 500;
        using var folder = new NoticeFolder(NoticeFiling.Webhooks(("workshop", receiver.Address)));
        await using var run = await folder.StartAsync();
        await NoticeFiling.FileAsync(run, "N-2");
        // Another day's: neither bears on the other.
        await NoticeFiling.FileAsync(run, "N-3", "2026-03-13");
        await UntilAsync(() => run.Get<INoticeStore>().Count().GivenUp == 2);

        var page = await run.GetJsonAsync("api/notices?state=given-up&limit=1");
        var newest = Assert.Single(page.GetProperty("items").EnumerateArray());
        var rest = await run.GetJsonAsync(
            $"api/notices?limit=1&after={page.GetProperty("next").GetString()}"
        );
        var oldest = Assert.Single(rest.GetProperty("items").EnumerateArray());
        Assert.False(
            rest.TryGetProperty("next", out var next) && next.ValueKind != System.Text.Json.JsonValueKind.Null
        );
        Assert.Equal("answered 500", newest.GetProperty("failure").GetString());
        Assert.NotEqual(newest.GetProperty("id").GetString(), oldest.GetProperty("id").GetString());

        receiver.Answer = _ => 200;
        var id = oldest.GetProperty("id").GetString()!;
        using (var asked = await run.PostAsync($"api/notices/{id}/retry", []))
        {
            Assert.Equal(HttpStatusCode.OK, asked.StatusCode);
            Assert.Equal("waiting", (await ServiceRun.JsonAsync(asked)).GetProperty("state").GetString());
        }

        var heard = await receiver.UntilAsync(3);
        Assert.Equal(id, heard[2].Id);
        await UntilAsync(() => run.Get<INoticeStore>().Count() is { Waiting: 0, GivenUp: 1 });
        var act = run.Get<IAccountStore>()
            .Acts(null, 10)
            .Single(one => one.What == AccountAct.NoticeTriedAnew);
        Assert.StartsWith("key:", act.By, StringComparison.Ordinal);
        Assert.EndsWith("/workshop", act.About, StringComparison.Ordinal);
        using var again = await run.PostAsync($"api/notices/{id}/retry", []);
        Assert.Equal("delivered", (await ServiceRun.JsonAsync(again)).GetProperty("state").GetString());
    }

    [Theory]
    [InlineData("?state=lost", "state")]
    [InlineData("?stat=given-up", "stat")]
    [InlineData("?limit=0", "limit")]
    [InlineData("?after=x", "after")]
    [InlineData("?limit=1&limit=2", "limit")]
    public async Task List_AskedForWhatThereIsNot_IsRefused(string query, string name)
    {
        await using var run = await ServiceRun.StartAsync();

        using var answer = await run.GetAsync("api/notices" + query);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var told = await ServiceRun.JsonAsync(answer);
        Assert.StartsWith(name + ":", told.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Command_OnTheFolderOfAServiceThatRuns_ListsAndTriesAnew()
    {
        await using var receiver = await Receiver.StartAsync();
        receiver.Answer = _ => 500;
        using var folder = new NoticeFolder(NoticeFiling.Webhooks(("workshop", receiver.Address)));
        await using var run = await folder.StartAsync();
        await NoticeFiling.FileAsync(run, "N-2");
        await UntilAsync(() => run.Get<INoticeStore>().Count().GivenUp == 1);
        using var product = new Product();
        var data = Path.Combine(run.Folder, "data");

        var listed = product.Run("notices", "list", "--data", data);
        Assert.True(listed.ExitCode == 0, listed.ToString());
        var id = listed.StandardOutput.Split(' ')[0];
        Assert.Equal(receiver.All.First().Id, id);
        Assert.EndsWith("1 attempts  answered 500", listed.StandardOutput.Trim(), StringComparison.Ordinal);
        Assert.Equal(2, product.Run("notices", "retry", "--data", data, "none").ExitCode);
        Assert.Equal(2, product.Run("notices", "retry", "--data", data).ExitCode);
        Assert.Equal(2, product.Run("notices", "list", "--data", product.At("none")).ExitCode);
        receiver.Answer = _ => 200;
        var retried = product.Run("notices", "retry", "--data", data, "--all");

        Assert.True(retried.ExitCode == 0, retried.ToString());
        Assert.Equal($"{id}  waiting", retried.StandardOutput.Trim());
        _ = await receiver.UntilAsync(2);
        Assert.Equal(
            AccountAct.Machine,
            run.Get<IAccountStore>().Acts(null, 10).Single(one => one.What == AccountAct.NoticeTriedAnew).By
        );
        await UntilAsync(() => run.Get<INoticeStore>().Count() is { Waiting: 0, GivenUp: 0 });
        Assert.Equal("", product.Run("notices", "list", "--data", data).StandardOutput);
    }

    private static long OnQueue(NoticeFolder folder, string sql)
    {
        using var queue = new SqliteConnection(
            $"Data Source={Path.Combine(folder.Ledger, "work.db")};Pooling=False"
        );
        queue.Open();
        using var command = queue.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        return (long)command.ExecuteScalar()!;
    }

    private static async Task UntilAsync(Func<bool> isSo)
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (!isSo())
        {
            await Task.Delay(20, enough.Token);
        }
    }
}
