using ServiceRules.Application.Ledger;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Storage.Tests.Packs;

/// <summary>What every database must keep of waivers that are entered beside the registers.</summary>
public abstract class WaiverContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);
    private static readonly Waiver Wet = new(
        "height-on-target",
        null,
        new("lead-01"),
        "wet",
        new(2026, 4, 1),
        new(2026, 4, 30)
    );

    private protected WaiverContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Entered_AtOneInstance_CountsAtAnotherUntilItIsWithdrawn()
    {
        using var one = Drawer.Open();
        using var other = Drawer.Open();
        var site = Submitting.Jobs.Rules.Site!;
        var seen = new SiteWaivers(other.Waivers, site);
        var elsewhere = new SiteWaivers(other.Waivers, site with { Name = "another" });
        Assert.Same(site, seen.Now());

        Keep(one, site.Name);

        Assert.Contains(Wet, seen.Now().Waivers);
        Assert.Same(seen.Now(), seen.Now());
        Assert.DoesNotContain(Wet, elsewhere.Now().Waivers);
        one.Store.Write(writing =>
        {
            writing.Waivers.Withdraw(1, At, 9);
            return 0;
        });
        Assert.DoesNotContain(Wet, seen.Now().Waivers);
        var kept = Assert.Single(other.Waivers.Of(site.Name));
        Assert.Equal(
            (1L, "w", 3L, At, 9L),
            (kept.Number, kept.Subject, kept.Entry, kept.WithdrawnAt, kept.WithdrawnBy)
        );
        Assert.Equal(Wet, SiteWaivers.Read(kept));
    }

    [SkippableFact]
    public void Erased_CountsNoMore()
    {
        using var folder = Drawer.Open();
        var ledger = Drawer.Opened(folder);
        var site = Submitting.Jobs.Rules.Site!;
        var seen = new SiteWaivers(folder.Waivers, site);
        Enter(ledger, site.Name);
        Assert.Contains(Wet, seen.Now().Waivers);

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(ledger).Forget("lead-01", new Correction("officer-01", "asked"), true)
        );

        Assert.DoesNotContain(Wet, seen.Now().Waivers);
        Assert.Null(Assert.Single(folder.Waivers.Of(site.Name)).Content);
    }

    [SkippableFact]
    public void Lost_IsNotTakenForErasedAndCountsAgainOnceItIsPutBack()
    {
        using var folder = Drawer.Open();
        var ledger = Drawer.Opened(folder);
        var site = Submitting.Jobs.Rules.Site!;
        var seen = new SiteWaivers(folder.Waivers, site);
        Enter(ledger, site.Name);
        Assert.Contains(Wet, seen.Now().Waivers);
        _ = new ExportLedger(ledger.Log, ledger.Key).To(Drawer.At("copy"));

        folder.Store.Write(writing =>
        {
            writing.Remove(Assert.Single(writing.Waivers.Rows()).Content);
            return 0;
        });

        Assert.Equal(StoreTrouble.Damaged, Assert.Throws<LedgerStoreException>(() => seen.Now()).Trouble);
        Assert.Single(new MendContents(ledger).Mend(ExportedLedger.Open(Drawer.At("copy"))).PutBack);
        Assert.Contains(Wet, seen.Now().Waivers);
    }

    [SkippableFact]
    public void Lost_AndInNoCopy_IsWithdrawnAndKeepsNobodyFromJudging()
    {
        using var folder = Drawer.Open();
        var ledger = Drawer.Opened(folder);
        var site = Submitting.Jobs.Rules.Site!;
        Enter(ledger, site.Name);
        folder.Store.Write(writing =>
        {
            writing.Remove(Assert.Single(writing.Waivers.Rows()).Content);
            return 0;
        });

        Assert.IsType<WaiverOutcome.Done>(Waiving(ledger, site.Name).Withdraw(1, "lost", "key:1"));

        Assert.Same(site, new SiteWaivers(folder.Waivers, site).Now());
    }

    [SkippableFact]
    public void Content_OfOtherBytes_IsDamage()
    {
        using var folder = Drawer.Open();
        var other = WaiverFormat.Current.Write(Wet with { Until = new(2027, 4, 30) });
        folder.Store.Write(writing =>
        {
            var hash = Evidence.ContentHash.Of(WaiverFormat.Current.Write(Wet));
            writing.Keep(hash, other);
            return writing.Waivers.Keep("s", "w", hash, At, 3);
        });

        Assert.Equal(
            StoreTrouble.Damaged,
            Assert
                .Throws<LedgerStoreException>(() =>
                    SiteWaivers.Counting(Assert.Single(folder.Waivers.Of("s")))
                )
                .Trouble
        );
    }

    private static KeepWaivers Waiving(OpenLedger ledger, string site) =>
        new(ledger, Submitting.Jobs.Rules.Library, site, false);

    private static void Enter(OpenLedger ledger, string site) =>
        Assert.IsType<WaiverOutcome.Done>(
            Waiving(ledger, site).Enter(Submitting.Jobs.Rules.Book, Wet, "key:1")
        );

    private static void Keep(LedgerFolder folder, string site) =>
        Assert.Equal(
            1,
            folder.Store.Write(writing =>
            {
                var bytes = WaiverFormat.Current.Write(Wet);
                var hash = Evidence.ContentHash.Of(bytes);
                writing.Keep(hash, bytes);
                return writing.Waivers.Keep(site, "w", hash, At, 3);
            })
        );
}
