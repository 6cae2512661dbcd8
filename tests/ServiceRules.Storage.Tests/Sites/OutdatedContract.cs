using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.SafeWork;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Sites;

/// <summary>An instance of one site, where another one made the installation one of several since.</summary>
public abstract class OutdatedContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);
    private static readonly DateOnly Day = new(2026, 4, 13);
    private static readonly Waiver Wet = new(
        "height-on-target",
        null,
        new("lead-01"),
        "wet",
        new(2026, 4, 1),
        new(2026, 4, 30)
    );

    private protected OutdatedContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Waiver_AtAnInstanceFromBefore_IsNeitherEnteredNorWithdrawn()
    {
        using var folder = Drawer.Open();
        var ledger = Drawer.Opened(folder);
        var site = Jobs.Rules.Site!.Name;
        var before = new KeepWaivers(ledger, Jobs.Rules.Library, site, false);
        Assert.IsType<WaiverOutcome.Done>(before.Enter(Jobs.Rules.Book, Wet, "key:1"));
        Become(folder);

        Outdated(() => before.Withdraw(1, "dry", "key:1"));
        Outdated(() => before.Enter(Jobs.Rules.Book, Wet, "key:1"));

        Assert.Null(Assert.Single(folder.Waivers.Of(site)).WithdrawnAt);
        Assert.IsType<WaiverOutcome.Done>(
            new KeepWaivers(ledger, Jobs.Rules.Library, site, true).Withdraw(1, "dry", "key:1")
        );
    }

    [SkippableFact]
    public async Task ReportOfAPeriod_AtAnInstanceFromBefore_IsNotFiled()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var site = Jobs.Rules.Site!;
        var book = Jobs.Rules.Book;
        var reading = new ReadPeriod(
            new StoredRecords(counter.Ledger, site.Name, book, Day, Day, CancellationToken.None),
            book,
            site,
            new Judge()
        );
        Assert.True(reading.Read(Day, Day, out _).TryGet(out var period, out var fault), fault);
        var report = "%PDF-1.7"u8.ToArray();
        var isAlong = false;
        Become(counter.Folder);

        Outdated(() => new FilePeriodReport(counter.Ledger, false).File(period, report, _ => isAlong = true));

        Assert.False(isAlong);
        Assert.True(counter.Ledger.Log.About(FilePeriodReport.SubjectOf(Day, Day)).IsEmpty);
        Assert.IsType<FilingOutcome.Filed>(new FilePeriodReport(counter.Ledger, true).File(period, report));
    }

    private void Become(LedgerFolder folder) =>
        SiteSettling.Settle(Drawer.Accounts(folder), ["Alder", "Birch"], At);

    private static void Outdated(Func<object> way) =>
        Assert.Equal(StoreTrouble.Outdated, Assert.Throws<LedgerStoreException>(way).Trouble);
}
