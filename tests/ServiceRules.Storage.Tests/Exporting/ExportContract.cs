using ServiceRules.Application.Exporting;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Tests.Exporting;

/// <summary>What every database must keep of exports.</summary>
public abstract class ExportContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 4, 13, 8, 0, 0, TimeSpan.Zero);

    private protected ExportContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Export_Written_IsHandedOutInItsPartsAndRemoved()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        _ = store.Ask(Job("e-1", "key:a", "records"), 10);
        Assert.Equal(ExportState.Queued, store.Find("e-1")!.State);
        Assert.True(store.Begin("e-1", "first"));
        Assert.True(store.Append("e-1", "first", 0, new byte[] { 1, 2 }, 5));
        Assert.True(store.Append("e-1", "first", 1, new byte[] { 3 }, 7));
        Assert.Equal((ExportState.Running, 7L, 3L), Standing(store));
        var digest = ContentHash.Of([1, 2, 3]);
        Assert.True(store.End("e-1", "first", 8, digest));

        Assert.Equal((ExportState.Done, 8L, 3L), Standing(store));
        Assert.Equal(digest, store.Find("e-1")!.Digest);
        Assert.Equal(new byte[] { 1, 2 }, store.Part("e-1", 0)!);
        Assert.Equal(new byte[] { 3 }, store.Part("e-1", 1)!);
        Assert.Null(store.Part("e-1", 2));
        Assert.False(store.Begin("e-1", "second"));
        Assert.Empty(store.Kept(unfinishedOnly: true));
        Assert.Equal("e-1", Assert.Single(store.Kept(unfinishedOnly: false)));

        store.Remove("e-1");
        Assert.Null(store.Find("e-1"));
        Assert.Null(store.Part("e-1", 0));
    }

    [SkippableFact]
    public void Export_BegunAgain_TakesNothingMoreOfWhoBeganBefore()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        _ = store.Ask(Job("e-1", "key:a", "records"), 10);
        Assert.True(store.Begin("e-1", "first"));
        Assert.True(store.Append("e-1", "first", 0, new byte[] { 1 }, 1));

        Assert.True(store.Begin("e-1", "second"));

        Assert.Null(store.Part("e-1", 0));
        Assert.Equal((ExportState.Running, 0L, 0L), Standing(store));
        Assert.False(store.Append("e-1", "first", 1, new byte[] { 9 }, 2));
        Assert.False(store.End("e-1", "first", 2, ContentHash.Of([1, 9])));
        Assert.False(store.Fail("e-1", "first", "gone"));
        Assert.True(store.Append("e-1", "second", 0, new byte[] { 2 }, 1));
        Assert.True(store.Fail("e-1", "second", "too large"));
        Assert.Equal("too large", store.Find("e-1")!.Failure);
        Assert.Null(store.Part("e-1", 0));
    }

    [SkippableFact]
    public void Export_AskedForTwice_IsOneWhileItIsWrittenAndACallerHasSoManyAlone()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        Assert.Equal("e-1", store.Ask(Job("e-1", "key:a", "records"), 2)!.Id);
        Assert.Equal("e-1", store.Ask(Job("e-2", "key:a", "records"), 2)!.Id);
        Assert.Equal("e-3", store.Ask(Job("e-3", "key:b", "records"), 2)!.Id);
        Assert.True(store.Begin("e-1", "turn"));
        Assert.True(store.End("e-1", "turn", 0, ContentHash.Of([])));

        Assert.Equal("e-4", store.Ask(Job("e-4", "key:a", "records"), 2)!.Id);
        Assert.Null(store.Ask(Job("e-5", "key:a", "units"), 2));
        Assert.Null(store.Find("e-5"));
        store.Remove("e-1");
        Assert.Equal("e-5", store.Ask(Job("e-5", "key:a", "units"), 2)!.Id);
    }

    [SkippableFact]
    public void Exports_OfACaller_AreThoseTheNewestFirst()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        _ = store.Ask(Job("e-1", "key:a", "records"), 10);
        _ = store.Ask(Job("e-2", "key:b", "records"), 10);
        _ = store.Ask(new("e-3", "key:a", "units", At.AddMinutes(1), At.AddDays(1)), 10);

        Assert.Equal(["e-3", "e-1"], store.Of("key:a").Select(job => job.Id));
        Assert.Equal("units", store.Of("key:a")[0].Request);
        Assert.Empty(store.Of("key:c"));
    }

    [SkippableFact]
    public void Export_ThatExpired_CountsForNothing()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        Assert.NotNull(store.Ask(Job("e-1", "key:a", "records"), 1));
        Assert.Null(store.Ask(Job("e-2", "key:a", "units"), 1));
        var later = At.AddDays(1);

        var again = store.Ask(new("e-3", "key:a", "records", later, later.AddDays(1)), 1);

        Assert.Equal("e-3", again!.Id);
    }

    [SkippableFact]
    public async Task Export_AskedForManyTimesAtOnce_IsOne()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;

        var all = await Task.WhenAll(
            Enumerable
                .Range(0, 8)
                .Select(number => Task.Run(() => store.Ask(Job($"e-{number}", "key:a", "records"), 10)!.Id))
        );

        Assert.Single(all.Distinct());
        Assert.Single(store.Kept(unfinishedOnly: true));
    }

    [SkippableFact]
    public void Export_EndedWithAFilingThatFails_IsNotWhole()
    {
        using var folder = Drawer.Open();
        var store = folder.Exports;
        _ = store.Ask(Job("e-1", "key:a", "safe-work"), 10);
        Assert.True(store.Begin("e-1", "turn"));
        Assert.True(store.Append("e-1", "turn", 0, new byte[] { 1 }, 1));
        var digest = ContentHash.Of([1]);

        _ = Assert.Throws<InvalidOperationException>(() =>
            folder.Store.Write<bool>(log =>
                log.Rows.EndExport("e-1", "turn", 1, digest)
                    ? throw new InvalidOperationException("broken off")
                    : false
            )
        );

        Assert.Equal(ExportState.Running, store.Find("e-1")!.State);
        Assert.False(folder.Store.Write(log => log.Rows.EndExport("e-1", "other", 1, digest)));
        Assert.True(folder.Store.Write(log => log.Rows.EndExport("e-1", "turn", 1, digest)));
        Assert.Equal((ExportState.Done, 1L, 1L), Standing(store));
        Assert.False(folder.Store.Write(log => log.Rows.EndExport("e-1", "turn", 1, digest)));
    }

    [SkippableFact]
    public void Mark_OfAKind_GoesOnAndNeverBack()
    {
        using var folder = Drawer.Open();
        Assert.Null(folder.WorkMarks.Find("report"));

        folder.WorkMarks.Move("report", 5);
        folder.WorkMarks.Move("report", 3);

        Assert.Equal(5, folder.WorkMarks.Find("report"));
        Assert.Null(folder.WorkMarks.Find("other"));
    }

    private static (ExportState, long, long) Standing(IExportStore store) =>
        store.Find("e-1") is { } job ? (job.State, job.Rows, job.Bytes) : default;

    private static ExportJob Job(string id, string by, string what) => new(id, by, what, At, At.AddDays(1));
}
