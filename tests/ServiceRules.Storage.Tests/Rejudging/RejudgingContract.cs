using System.Globalization;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Tests.Rejudging;

/// <summary>What every database must keep of judging the history again.</summary>
public abstract partial class RejudgingContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private protected RejudgingContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Begun_OverManyRecords_IsCutIntoPagesInWhichEachNewestVersionStandsOnce()
    {
        using var folder = Drawer.Open();
        Assert.Null(folder.Rejudgings.Find("a"));

        var begun = Begun(folder, records: 120);

        Assert.Equal(new RejudgingJob(1, "a", "key:1", At) { Reason = "new season", Records = 119 }, begun);
        Assert.Equal(begun, folder.Rejudgings.Find("a"));
        Assert.Null(folder.Rejudgings.Find("b"));
        var pages = folder.Rejudgings.Waiting(10);
        Assert.Equal([50, 50, 19], pages.Select(page => page.Records));
        Assert.Equal([0, 1, 2], pages.Select(page => page.Number));
        // The eighth record has no newest version: entries 0 to 12, and from 16 on.
        Assert.Equal([(0L, 100L), (102L, 200L), (202L, 238L)], pages.Select(page => (page.First, page.Last)));
        Assert.Equal(pages[1], folder.Rejudgings.Page(1, 1));
        Assert.Equal(pages[0], Assert.Single(folder.Rejudgings.Waiting(1)));
        Assert.Null(folder.Rejudgings.Page(2, 0));
    }

    [SkippableFact]
    public void Pages_SettledOneAfterTheOther_AddUpAndEndTheJob()
    {
        using var folder = Drawer.Open();
        _ = Begun(folder, records: 120);
        var pages = folder.Rejudgings.Waiting(10);

        Settle(folder, pages[1], new(10, 20, 5, 15), new NotJudged(104, "R-52", "no longer kept"));
        Assert.Null(folder.Rejudgings.Page(1, 1));
        Assert.Equal([0, 2], folder.Rejudgings.Waiting(10).Select(page => page.Number));
        Settle(folder, pages[0], new(1, 49, 0, 0));
        Assert.Equal(RejudgingState.Running, folder.Rejudgings.Find("a")!.State);
        Assert.Equal(1, folder.Store.Write(writing => writing.Rejudgings.Running()!.Number));
        Settle(folder, pages[2], new(0, 18, 0, 1), new NotJudged(202, "R-101", "damaged"));

        var done = folder.Rejudgings.Find("a")!;
        Assert.Equal((RejudgingState.Done, At.AddMinutes(1)), (done.State, done.EndedAt));
        Assert.Equal(new RejudgingCounts(11, 87, 5, 16), done.Counts);
        Assert.Equal(done.Records, done.Counts.LookedAt);
        Assert.Empty(folder.Rejudgings.Waiting(10));
        Assert.Equal(
            [new NotJudged(104, "R-52", "no longer kept"), new NotJudged(202, "R-101", "damaged")],
            folder.Rejudgings.Failures(1, 10).AsEnumerable()
        );
        Assert.Equal("R-52", Assert.Single(folder.Rejudgings.Failures(1, 1)).Record);
        Assert.Null(folder.Store.Write(writing => writing.Rejudgings.Running()));
    }

    [SkippableFact]
    public void Page_SettledInATransactionThatIsUndone_Waits()
    {
        using var folder = Drawer.Open();
        _ = Begun(folder, records: 3);
        var page = Assert.Single(folder.Rejudgings.Waiting(10));

        Assert.Throws<InvalidOperationException>(() =>
            folder.Store.Write<bool>(writing =>
            {
                writing.Rejudgings.Settle(page, new(3, 0, 0, 0), [], At);
                throw new InvalidOperationException();
            })
        );

        Assert.Equal(page, folder.Rejudgings.Page(1, 0));
        Assert.Equal(0, folder.Rejudgings.Find("a")!.Counts.LookedAt);
    }

    [SkippableFact]
    public void Job_Ended_HasNoPagesAndMakesRoomForTheNext()
    {
        using var folder = Drawer.Open();
        _ = Begun(folder, records: 60);

        _ = folder.Store.Write(writing =>
        {
            writing.Rejudgings.End(1, At.AddMinutes(2));
            return true;
        });

        var ended = folder.Rejudgings.Find("a")!;
        Assert.Equal((RejudgingState.Ended, At.AddMinutes(2)), (ended.State, ended.EndedAt));
        Assert.Empty(folder.Rejudgings.Waiting(10));
        var next = folder.Store.Write(writing => writing.Rejudgings.Begin(new(0, "a", "key:2", At)));
        Assert.Equal((2L, 59L), (next.Number, next.Records));
        Assert.Equal(next, folder.Rejudgings.Find("a"));
    }

    [SkippableFact]
    public void Begun_OverNoRecords_IsDone()
    {
        using var folder = Drawer.Open();

        var begun = Begun(folder, records: 0);

        Assert.Equal((RejudgingState.Done, 0L, At), (begun.State, begun.Records, begun.EndedAt));
        Assert.Empty(folder.Rejudgings.Waiting(10));
    }

    [SkippableFact]
    public void Failures_OfAJob_AreKeptUpToAThousandAndCountedAll()
    {
        using var folder = Drawer.Open();
        _ = Begun(folder, records: 60);

        foreach (var page in folder.Rejudgings.Waiting(10))
        {
            Settle(
                folder,
                page,
                new(0, 0, 0, 700),
                [
                    .. Enumerable
                        .Range(0, 700)
                        .Select(at => new NotJudged(page.Number * 1000 + at, $"R-{at}", "damaged")),
                ]
            );
        }

        Assert.Equal(1400, folder.Rejudgings.Find("a")!.Counts.Failed);
        Assert.Equal(1000, folder.Rejudgings.Failures(1, 5000).Length);
    }

    private static RejudgingJob Begun(LedgerFolder folder, int records) =>
        folder.Store.Write(writing =>
        {
            for (var at = 0; at < records; at++)
            {
                writing.Rows.Put(new(Row(at), [], []));
            }

            return writing.Rejudgings.Begin(new RejudgingJob(0, "a", "key:1", At) { Reason = "new season" });
        });

    private static RecordRow Row(int at) =>
        new(
            2 * at,
            string.Create(CultureInfo.InvariantCulture, $"R-{at}"),
            "M-02",
            new DateOnly(2026, 4, 13),
            At,
            string.Create(CultureInfo.InvariantCulture, $"sha256:{at:x64}")
        )
        {
            State = "released",
            IsNewest = at != 7,
        };

    private static void Settle(
        LedgerFolder folder,
        RejudgingPage page,
        RejudgingCounts counts,
        params NotJudged[] failures
    ) =>
        folder.Store.Write(writing =>
        {
            writing.Rejudgings.Settle(page, counts, [.. failures], At.AddMinutes(1));
            return true;
        });
}
