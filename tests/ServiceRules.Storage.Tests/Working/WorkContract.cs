using System.Collections.Concurrent;
using System.Text.Json.Nodes;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Working;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Working;

/// <summary>What every database must keep of notices and of work behind answers.</summary>
public abstract class WorkContract : DrawerContract
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(60);

    private static readonly NoticeRecipients Recipients = new([
        new("leads", [Disposition.Stop]),
        new("workshop", [Disposition.Hold, Disposition.Stop]),
    ]);

    private protected WorkContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public async Task Notice_OfAHold_IsOwedWithTheFilingToThoseWhoAreToldOfIt()
    {
        await using var counter = new Counter(Drawer, Recipients);

        _ = await counter.SubmitAsync(Jobs.Job("N-1"));
        _ = await counter.SubmitAsync(Jobs.Job("N-2", TooHigh));
        _ = await counter.SubmitAsync(Jobs.Job("N-2", TooHigh));

        var owed = Assert.Single(counter.Notices.Waiting(0));
        var row = Assert.Single(counter.Rows.Versions("N-2"));
        Assert.Equal(("workshop", row.AssessmentIndex), (owed.Recipient, owed.Entry));
        Assert.Equal("hold", ToldNotice.Of(counter.Ledger.Log, owed.Entry)!.Disposition);
        Assert.Empty(counter.Notices.Waiting(owed.Entry + 1));
    }

    [SkippableFact]
    public async Task Notice_GivenUp_IsSettledOnceAndTold()
    {
        await using var counter = new Counter(Drawer, Recipients);
        _ = await counter.SubmitAsync(Jobs.Job("N-2", TooHigh));
        var owed = counter.Notices.Waiting(0).Single();
        var act = new AccountAct(owed.At, AccountAct.NoticeGivenUp, AccountAct.Service, "notice:1/workshop");

        counter.Notices.Tried(owed with { Attempts = 1, Failure = "answered 500" });
        Assert.Equal("answered 500", counter.Notices.Find(owed.Entry, "workshop")!.Failure);
        counter.Notices.Tried(owed with { Attempts = 2, State = NoticeState.GivenUp }, act);
        counter.Notices.Tried(owed with { Attempts = 3, State = NoticeState.Delivered }, act);

        Assert.Equal(new NoticeCount(0, 1, null), counter.Notices.Count());
        Assert.Equal(2, counter.Notices.Find(owed.Entry, "workshop")!.Attempts);
        Assert.Equal("notice:1/workshop", Assert.Single(counter.Folder.Accounts.Acts(null, 10)).About);
    }

    [SkippableFact]
    public async Task Notice_GivenUp_IsListedAndTriedAnewOnce()
    {
        await using var counter = new Counter(Drawer, Recipients);
        _ = await counter.SubmitAsync(Jobs.Job("N-2", TooHigh));
        _ = await counter.SubmitAsync(Jobs.Job("N-3", TooHigh));
        var owed = counter.Notices.Waiting(0);
        foreach (var one in owed)
        {
            counter.Notices.Tried(one with { Attempts = 4, Failure = "gone", State = NoticeState.GivenUp });
        }

        var first = Assert.Single(counter.Notices.In(NoticeState.GivenUp, null, 1));
        Assert.Equal(owed[1].Entry, first.Entry);
        var second = Assert.Single(counter.Notices.In(NoticeState.GivenUp, first, 10));
        Assert.Equal(owed[0].Entry, second.Entry);
        var act = new AccountAct(owed[0].At, AccountAct.NoticeTriedAnew, "machine", "notice:x");

        Assert.True(counter.Notices.TryAnew(second.Entry, second.Recipient, act));
        Assert.False(counter.Notices.TryAnew(second.Entry, second.Recipient, act));
        Assert.False(counter.Notices.TryAnew(99, "nobody", act));

        var again = Assert.Single(counter.Notices.Waiting(first.Entry + 1));
        Assert.Equal((second.Entry, 0, "gone"), (again.Entry, again.Attempts, again.Failure));
        Assert.Equal("notice:x", Assert.Single(counter.Folder.Accounts.Acts(null, 10)).About);
        Assert.Equal(1, counter.Notices.Count().GivenUp);
    }

    [SkippableFact]
    public async Task Queue_OfWhichOneGroupHangs_DoesTheOthers()
    {
        using var folder = Drawer.Open();
        var work = new CountedWork(_ => null, what => what.Split('/')[1]) { Hangs = "slow" };
        await using var queue = folder.OpenWork();
        await queue.StartAsync([work], CancellationToken.None);
        work.Hold();
        for (var number = 0; number < 12; number++)
        {
            await queue.AddAsync(work.Kind, $"{number}/slow", CancellationToken.None);
        }

        await queue.AddAsync(work.Kind, "1/quick", CancellationToken.None);

        await work.UntilAsync("1/quick", 1, Long);
        Assert.InRange(work.MostHanging, 1, 2);
        work.Go();
        await work.UntilAsync("11/slow", 1, Long);
    }

    [SkippableFact]
    public async Task Queue_AskedForTwice_DoesItOnce()
    {
        using var folder = Drawer.Open();
        var work = new CountedWork(_ => null);
        await using var queue = folder.OpenWork();
        await queue.StartAsync([work], CancellationToken.None);
        work.Hold();

        await queue.AddAsync(work.Kind, "1/a", CancellationToken.None);
        await queue.AddAsync(work.Kind, "1/a", CancellationToken.None);
        await queue.AddAsync(work.Kind, "2/a", CancellationToken.None);
        work.Go();

        await work.UntilAsync("2/a", 1, Long);
        await work.UntilAsync("1/a", 1, Long);
        await Task.Delay(500);
        Assert.Equal(1, work.Count("1/a"));
    }

    [SkippableFact]
    public async Task Queue_NotDone_IsDoneAgainAlsoWhenItBrokeOff()
    {
        using var folder = Drawer.Open();
        var work = new CountedWork(times => times < 3 ? TimeSpan.FromMilliseconds(50) : null);
        await using var queue = folder.OpenWork();
        await queue.StartAsync([work], CancellationToken.None);

        await queue.AddAsync(work.Kind, "1/a", CancellationToken.None);

        await work.UntilAsync("1/a", 3, Long);
    }

    [SkippableFact]
    public async Task Queue_StoppedBeforeItWasDone_GoesOnAtTheNextStart()
    {
        using (var folder = Drawer.Open())
        {
            var later = new CountedWork(_ => TimeSpan.FromSeconds(3));
            await using var queue = folder.OpenWork();
            await queue.StartAsync([later], CancellationToken.None);
            await queue.AddAsync(later.Kind, "1/a", CancellationToken.None);
            await later.UntilAsync("1/a", 1, Long);
        }

        using var again = Drawer.Open();
        var work = new CountedWork(_ => null);
        await using var next = again.OpenWork();
        await next.StartAsync([work], CancellationToken.None);

        await work.UntilAsync("1/a", 1, Long);
    }

    private static void TooHigh(JsonObject job) => job["units"]![0]!["entries"]![0]!["value"] = "4.90 mm";

    private sealed class CountedWork(Func<int, TimeSpan?> answer, Func<string, string>? shares = null) : IWork
    {
        private int _hanging;
        private readonly ConcurrentDictionary<string, int> _done = new(StringComparer.Ordinal);
        private TaskCompletionSource _may = Gone();

        public string Kind => "counted";

        /// <summary>The group that is held back; empty: all are.</summary>
        public string Hangs { get; init; } = "";

        public int MostHanging { get; private set; }

        public string? SharesWith(string what) => shares?.Invoke(what);

        public void Hold() => _may = new();

        public void Go() => _may.SetResult();

        public int Count(string what) => _done.GetValueOrDefault(what);

        public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
        {
            if (what.EndsWith(Hangs, StringComparison.Ordinal))
            {
                var now = Interlocked.Increment(ref _hanging);
                MostHanging = Math.Max(MostHanging, now);
                await _may.Task;
                _ = Interlocked.Decrement(ref _hanging);
            }

            return answer(_done.AddOrUpdate(what, 1, (_, times) => times + 1));
        }

        public async Task UntilAsync(string what, int times, TimeSpan most)
        {
            using var enough = new CancellationTokenSource(most);
            while (Count(what) < times)
            {
                await Task.Delay(20, enough.Token);
            }
        }

        private static TaskCompletionSource Gone()
        {
            var gone = new TaskCompletionSource();
            gone.SetResult();
            return gone;
        }
    }
}
