using ServiceRules.Application.Due;
using ServiceRules.Application.Notices;

namespace ServiceRules.Storage.Tests.Due;

/// <summary>What every database must keep of what falls due.</summary>
public abstract class DueContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 4, 13, 8, 0, 0, TimeSpan.Zero);
    private static readonly DateOnly Day = new(2026, 4, 13);

    private protected DueContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Found_OfASite_IsReplacedWholeAndOfThatSiteAlone()
    {
        using var folder = Drawer.Open();
        var store = folder.Due;
        Assert.Null(store.Look("Birch Hollow"));
        var gauge = new DueThing("Birch Hollow", DueKind.Calibration, "HG-01", Day, DueSource.Record)
        {
            Record = "J-1",
        };
        var worn = new DueThing("Birch Hollow", DueKind.Wear, "U-01-1", new(1969, 12, 30), DueSource.History)
        {
            About = "reel-diameter",
            Part = "R-7",
            Machine = "M-01",
            Record = "J-2",
            IsForecast = true,
            IsReached = true,
        };
        var look = new DueLook("Birch Hollow", Day, 7, "sha256:0", At);

        store.Keep(look, [worn, gauge]);

        Assert.Equal(look, store.Look("Birch Hollow"));
        Assert.Equal<DueThing>([worn, gauge], [.. store.Found("Birch Hollow")]);
        Assert.Empty(store.Found("Cedar Bank"));
        var later = look with { Day = Day.AddDays(1), Newest = 9, Rules = "sha256:1" };
        store.Keep(later, [gauge]);
        store.Keep(new("Cedar Bank", Day, -1, "sha256:0", At), []);
        Assert.Equal(later, store.Look("Birch Hollow"));
        Assert.Equal(gauge, Assert.Single(store.Found("Birch Hollow")));
    }

    [SkippableFact]
    public void Notices_OfAThingAndItsDay_AreKeptOnce()
    {
        using var folder = Drawer.Open();

        Assert.Equal(2, folder.Due.Tell([Of(1, "HG-01", "leads", "workshop"), Of(2, null, "leads")]));
        Assert.Equal(1, folder.Due.Tell([Of(1, "HG-01", "leads", "workshop"), Of(3, "HG-02", "leads")]));

        var waiting = folder.Notices.Waiting(1000);
        Assert.Equal(4, waiting.Length);
        Assert.All(waiting, notice => Assert.NotNull(notice.Due));
        var told = waiting.Select(notice => (folder.Due.Told(notice.Due!.Value)!, notice.Recipient)).ToList();
        Assert.Equal(
            ["HG-01 leads", "HG-01 workshop", "HG-02 leads", "nobody leads"],
            told.Select(one => $"{one.Item1.Subject ?? "nobody"} {one.Recipient}")
                .Order(StringComparer.Ordinal)
        );
        Assert.All(
            told,
            one => Assert.Equal(("Birch Hollow", Day, At), (one.Item1.Site, one.Item1.Due, one.Item1.At))
        );
        Assert.Null(folder.Due.Told(99));
    }

    [SkippableFact]
    public void Notice_OfWhatFallsDue_IsSettledAndListedAsOthersAre()
    {
        using var folder = Drawer.Open();
        _ = folder.Due.Tell([Of(1, "HG-01", "leads"), Of(2, "HG-02", "leads")]);
        var first = folder.Notices.Waiting(0)[0];

        folder.Notices.Tried(first with { State = NoticeState.Delivered, Attempts = 1 });

        Assert.Equal(NoticeState.Delivered, folder.Notices.Find(first.Entry, "leads")!.State);
        Assert.Equal(first.Entry, Assert.Single(folder.Notices.In(NoticeState.Delivered, null, 10)).Entry);
        Assert.Equal(1, folder.Notices.Count().Waiting);
        Assert.Empty(folder.Notices.In(NoticeState.Delivered, first, 10));
    }

    [SkippableFact]
    public async Task Notices_FoundByManyAtOnce_AreKeptOnce()
    {
        using var folder = Drawer.Open();

        var counts = await Task.WhenAll(
            Enumerable
                .Range(0, 8)
                .Select(_ =>
                    Task.Run(() =>
                        folder.Due.Tell([
                            .. Enumerable.Range(1, 20).Select(number => Of((byte)number, "HG-01", "leads")),
                        ])
                    )
                )
        );

        Assert.Equal(20, counts.Sum());
        Assert.Equal(20, folder.Notices.Count().Waiting);
    }

    [SkippableFact]
    public void Notices_OfATransactionThatFails_AreNotKept()
    {
        using var folder = Drawer.Open();

        _ = Assert.ThrowsAny<Exception>(() =>
            folder.Due.Tell(
                new[] { 1, 2 }.Select(number =>
                    number == 1 ? Of(1, "HG-01", "leads") : throw new InvalidOperationException("broken off")
                )
            )
        );

        Assert.Equal(0, folder.Notices.Count().Waiting);
        Assert.Equal(1, folder.Due.Tell([Of(1, "HG-01", "leads")]));
    }

    private static DueNotice Of(byte thing, string? subject, params string[] recipients) =>
        new(
            Enumerable.Repeat(thing, 32).ToArray(),
            new("Birch Hollow", subject is null ? DueKind.Training : DueKind.Calibration, subject, Day, At),
            [.. recipients]
        );
}
