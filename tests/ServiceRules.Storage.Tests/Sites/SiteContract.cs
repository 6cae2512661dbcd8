using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Sites;

/// <summary>What every database must keep apart where one log is that of several sites.</summary>
public abstract class SiteContract : DrawerContract
{
    private const string Alder = "Alder";
    private const string Birch = "Birch";

    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private protected SiteContract(Func<Drawer> drawer)
        : base(drawer) { }

    private static Account Account(string id, string? site) =>
        new(id, id, id.ToUpperInvariant(), Roles.Lead, At) { Stamp = "s", Site = site };

    private static ApiKey Key(string id, string? site) =>
        new(id, id, DrawnSecret.Hash(id), Roles.Lead, At, At.AddDays(9)) { Site = site };

    [SkippableFact]
    public void Site_OfAccountsAndKeys_IsKeptAndChanged()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing =>
        {
            writing.Add(Key("k-1", Birch));
            return writing.Add(Account("a-1", Alder)) && writing.Add(Account("a-2", GrantedSite.Every));
        });

        _ = accounts.Write(writing => writing.Replace(accounts.Account("a-1")! with { Site = Birch }));

        Assert.Equal(Birch, accounts.Account("a-1")!.Site);
        Assert.Equal(GrantedSite.Every, accounts.Account("a-2")!.Site);
        Assert.Equal(Birch, accounts.Key(DrawnSecret.Hash("k-1"))!.Site);
        Assert.Equal(Birch, Assert.Single(accounts.Keys()).Site);
    }

    [SkippableFact]
    public void OneSite_Served_LeavesAccountsOfNone()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing => writing.Add(Account("a-1", null)));

        SiteSettling.Settle(accounts, [Alder], At);

        Assert.Empty(accounts.Sites());
        Assert.Null(accounts.Account("a-1")!.Site);
        Assert.Empty(accounts.Acts(null, 10));
    }

    [SkippableFact]
    public void SeveralSites_Served_MakeWhoWasThereOfTheFirstForGood()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing =>
        {
            writing.Add(Key("k-1", null));
            return writing.Add(Account("a-1", null));
        });

        SiteSettling.Settle(accounts, [Birch, Alder], At);
        _ = accounts.Write(writing => writing.Add(Account("a-late", null)));
        SiteSettling.Settle(accounts, [Alder, "Cedar"], At);
        SiteSettling.Settle(accounts, [Alder], At);

        Assert.Equal([Birch, Alder, "Cedar"], accounts.Sites().AsEnumerable());
        Assert.Equal(Birch, accounts.Account("a-1")!.Site);
        Assert.Equal(Birch, accounts.Key(DrawnSecret.Hash("k-1"))!.Site);
        Assert.Null(accounts.Account("a-late")!.Site);
        Assert.Equal(
            ["site:Cedar", "site:Alder", "site:Birch"],
            accounts.Acts(null, 10).Select(act => act.About)
        );
    }

    [SkippableFact]
    public async Task Rows_AskedForAmongSites_AreThoseOfTheirRecordsAlone()
    {
        await using (var alder = new Counter(Drawer, site: Alder))
        {
            await alder.SubmitAsync(Jobs.Job("J-1"));
            await alder.SubmitAsync(Jobs.Job("J-3"));
        }

        await using var birch = new Counter(Drawer, site: Birch);
        await birch.SubmitAsync(Jobs.Job("J-2"));

        Assert.Equal(["J-3", "J-1"], Records([Alder]));
        Assert.Equal(["J-2"], Records([Birch]));
        Assert.Equal(["J-2", "J-3", "J-1"], Records([Alder, Birch]));
        Assert.Equal(["J-2", "J-3", "J-1"], Records(null));
        Assert.Empty(Records([]));
        Assert.Empty(Records(["Cedar"]));
        Assert.Empty(birch.Rows.Records(new() { Among = [Alder], Site = Birch }, new()).Rows);
        Assert.All(
            birch.Rows.Units(new() { Of = new() { Among = [Birch] } }, new()).Rows,
            row => Assert.Equal("J-2", row.Of.Record)
        );
        Assert.All(
            birch.Rows.Findings(new() { Of = new() { Among = [Alder] } }, new()).Rows,
            row => Assert.NotEqual("J-2", row.Of.Record)
        );
        // A page is full of own rows, and ends where they end.
        var page = birch.Rows.Records(new() { Among = [Alder] }, new RowPaging { Most = 1 });
        Assert.Equal("J-3", Assert.Single(page.Rows).Record);
        var last = birch.Rows.Records(
            new() { Among = [Alder] },
            new RowPaging { Most = 1, Beyond = page.Next }
        );
        Assert.Equal("J-1", Assert.Single(last.Rows).Record);
        Assert.Null(last.Next);

        IEnumerable<string> Records(string[]? sites) =>
            birch
                .Rows.Records(new() { Among = sites is null ? null : [.. sites] }, new RowPaging())
                .Rows.Select(row => row.Record);
    }

    [SkippableFact]
    public async Task Notices_AskedForAmongSites_AreThoseOfTheirRecordsAlone()
    {
        var recipients = new NoticeRecipients([
            new("one", [Disposition.Hold, Disposition.Stop]),
            new("two", [Disposition.Hold, Disposition.Stop]),
        ]);
        await using var alder = new Counter(Drawer, recipients, Alder);
        await using var birch = new Counter(Drawer, recipients, Birch);
        await alder.SubmitAsync(Jobs.Job("N-1", TooHigh));
        await birch.SubmitAsync(Jobs.Job("N-2", TooHigh));
        await alder.SubmitAsync(Jobs.Job("N-3", TooHigh));
        foreach (var one in birch.Notices.Waiting(0))
        {
            birch.Notices.Tried(one with { Attempts = 1, State = NoticeState.Delivered });
        }

        var all = birch.Notices.In(NoticeState.Delivered, null, 100);
        var own = birch.Notices.In(NoticeState.Delivered, null, 100, [Alder]);
        Assert.Equal((6, 4), (all.Length, own.Length));
        Assert.All(own, notice => Assert.Equal(Alder, notice.Site));
        Assert.Equal(own.AsEnumerable(), all.Where(notice => notice.Site == Alder));
        Assert.Equal(all.AsEnumerable(), birch.Notices.In(NoticeState.Delivered, null, 100, [Alder, Birch]));
        Assert.Empty(birch.Notices.In(NoticeState.Delivered, null, 100, []));
        Assert.Empty(birch.Notices.In(NoticeState.GivenUp, null, 100, [Alder]));
        // Page by page, each full of own ones.
        var paged = new List<Notice>();
        while (birch.Notices.In(NoticeState.Delivered, paged.LastOrDefault(), 1, [Alder]) is [var next])
        {
            paged.Add(next);
        }

        Assert.Equal(own.AsEnumerable(), paged);

        static void TooHigh(System.Text.Json.Nodes.JsonObject job) =>
            job["units"]![0]!["entries"]![0]!["value"] = "4.90 mm";
    }

    [SkippableFact]
    public async Task Installation_ThatBecameOneOfSeveral_TakesNothingFromAnInstanceThatDoesNotKnow()
    {
        await using var one = new Counter(Drawer);
        Assert.IsType<SubmissionOutcome.Stored>(await one.SubmitAsync(Jobs.Job("J-1"), "key"));
        SiteSettling.Settle(new LoggedAccounts(one.Ledger, one.Folder.Accounts), [Alder, Birch], At);
        var size = one.Ledger.Head!.Size;

        var further = Assert.IsType<SubmissionOutcome.Trouble>(await one.SubmitAsync(Jobs.Job("J-2")));
        var again = Assert.IsType<SubmissionOutcome.Trouble>(await one.SubmitAsync(Jobs.Job("J-1"), "key"));

        Assert.Equal((StoreTrouble.Outdated, StoreTrouble.Outdated), (further.What, again.What));
        Assert.Equal(size, one.Ledger.Head!.Size);
        await using var alder = new Counter(Drawer, site: Alder);
        Assert.IsType<SubmissionOutcome.Stored>(await alder.SubmitAsync(Jobs.Job("J-2")));
    }

    [SkippableFact]
    public async Task Identity_OfAnotherSite_IsTakenWhateverIsSent()
    {
        await using var alder = new Counter(Drawer, site: Alder);
        await alder.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen));
        await using var birch = new Counter(Drawer, site: Birch);
        var size = birch.Ledger.Head!.Size;

        var same = await birch.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen), "one");
        var further = await birch.SubmitAsync(Jobs.Job("J-1"));
        var other = await birch.SubmitAsync(Jobs.Job("J-1", Jobs.Mend));
        var amended = await birch.SubmitAsync(Jobs.Job("J-1"), null, new Correction("lead-01", "x"));
        var none = await birch.SubmitAsync(Jobs.Job("J-9"), null, new Correction("lead-01", "x"));

        var refusals = new[] { same, further, other }
            .Select(outcome => Assert.IsType<SubmissionOutcome.Declined>(outcome).Refusal)
            .ToList();
        Assert.All(
            refusals,
            refusal =>
            {
                Assert.Equal(refusals[0].ToString(), refusal.ToString());
                Assert.Null(refusal.Standing);
                Assert.True(refusal.Differences.IsEmpty);
            }
        );
        Assert.Equal(
            Assert
                .IsType<SubmissionOutcome.Declined>(none)
                .Refusal.What.Replace("J-9", "J-1", StringComparison.Ordinal),
            Assert.IsType<SubmissionOutcome.Declined>(amended).Refusal.What
        );
        Assert.Equal(size, birch.Ledger.Head!.Size);
        Assert.IsType<SubmissionOutcome.Progressed>(await alder.SubmitAsync(Jobs.Job("J-1")));
    }

    [SkippableFact]
    public async Task Identity_SentByTwoSitesAtOnce_IsOfOneOfThem()
    {
        await using var alder = new Counter(Drawer, site: Alder);
        await using var birch = new Counter(Drawer, site: Birch);

        foreach (var number in Enumerable.Range(1, 5))
        {
            var job = Jobs.Job($"J-{number}");
            var outcomes = await Task.WhenAll(
                Task.Run(() => alder.SubmitAsync(job)),
                Task.Run(() => birch.SubmitAsync(job))
            );

            Assert.Single(outcomes.OfType<SubmissionOutcome.Stored>());
            Assert.Single(outcomes.OfType<SubmissionOutcome.Declined>());
            _ = Assert.Single(alder.Rows.Versions($"J-{number}"));
        }
    }

    [SkippableFact]
    public async Task Record_OfAnotherSite_BearsOnNothingAlsoWhereItsSiteIsNotKnownAnyMore()
    {
        await using var alder = new Counter(Drawer, site: Alder);
        var hands = await alder.SubmitAsync(Jobs.Job("J-1"));
        await using var birch = new Counter(Drawer, site: Birch);

        Assert.Empty(Stored(await birch.SubmitAsync(Jobs.Start())).Turned);
        Assert.Equal(["J-1"], Shown(Alder, true));
        Assert.Empty(Shown("Cedar", false));

        var row = alder.Rows.Versions("J-1")[0];
        _ = alder.Store.Write(writing =>
        {
            writing.Rows.Put(
                new RecordRows(row with { Site = null }, [], [])
                {
                    Shown = [new ShownRow(ShownKind.Machine, "M-02", row.Day, row.Day)],
                }
            );
            return true;
        });

        Assert.DoesNotContain("J-1", Shown(Birch, true));
        Assert.Contains("J-1", Shown(Birch, false));
        Assert.NotNull(hands);

        IReadOnlyList<string> Shown(string site, bool isKnownAlone) =>
            [
                .. alder
                    .Rows.Shown(
                        new ShownFilter(ShownKind.Machine, ["M-02"])
                        {
                            Site = site,
                            IsKnownAlone = isKnownAlone,
                        }
                    )
                    .Select(one => one.Record),
            ];

        static StoredSubmission Stored(SubmissionOutcome outcome) =>
            Assert.IsType<SubmissionOutcome.Stored>(outcome).Submission;
    }
}
