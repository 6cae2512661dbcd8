using System.Data.Common;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Storage.Tests.Accounts;

/// <summary>What every database must keep of accounts, keys and acts, and what it must refuse.</summary>
public abstract class AccountContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private protected AccountContract(Func<Drawer> drawer)
        : base(drawer) { }

    private static Account Account(string id, string name) =>
        new(id, name, name.ToUpperInvariant(), Roles.Lead | Roles.Technician, At) { Stamp = "s" };

    private static bool Write(IAccountStore accounts, Action<IAccountWriting> work) =>
        accounts.Write(writing =>
        {
            work(writing);
            return true;
        });

    [SkippableFact]
    public void Account_Added_IsFoundAsItWasGivenAlsoAfterOpeningAgain()
    {
        var given = Account("a-1", "Lead.A") with
        {
            Person = "lead-01",
            Password = "hash",
            Failures = 3,
            LockedUntil = At.AddMinutes(15),
            IsLocked = true,
            MustChange = true,
        };
        using (var folder = Drawer.Open())
        {
            Assert.True(Drawer.Accounts(folder).Write(writing => writing.Add(given)));
        }

        using var folderAgain = Drawer.Open();
        var again = folderAgain.Accounts;
        Assert.Equal(given, again.Account("a-1"));
        Assert.Equal(given, again.AccountNamed("LEAD.A"));
        Assert.Equal(given, Assert.Single(again.Accounts()));
        Assert.Null(again.AccountNamed("Lead.A"));
        Assert.Null(again.Account("a-2"));
    }

    [SkippableFact]
    public void Account_OfANameThatIsTaken_IsNotAdded()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        Assert.True(accounts.Write(writing => writing.Add(Account("a-1", "same"))));

        Assert.False(accounts.Write(writing => writing.Add(Account("a-2", "Same"))));

        Assert.Equal("a-1", Assert.Single(accounts.Accounts()).Id);
    }

    [SkippableFact]
    public void Account_ReplacedByTwo_TakesTheFirstAlone()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing => writing.Add(Account("a-1", "one")));
        var read = accounts.Account("a-1")!;

        var first = accounts.Write(writing => writing.Replace(read with { Failures = 1 }));
        var second = accounts.Write(writing => writing.Replace(read with { Failures = 5 }));

        Assert.Equal(read with { Failures = 1, Version = 1 }, first);
        Assert.Null(second);
        Assert.Equal(first, accounts.Account("a-1"));
    }

    [SkippableFact]
    public void Account_Removed_IsGone()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing => writing.Add(Account("a-1", "one")));

        Write(accounts, writing => writing.RemoveAccount("a-1"));

        Assert.Empty(accounts.Accounts());
    }

    [SkippableFact]
    public void Transaction_ThatThrows_LeavesNothing()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);

        Assert.Throws<InvalidOperationException>(() =>
            Write(
                accounts,
                writing =>
                {
                    _ = writing.Add(Account("a-1", "one"));
                    writing.Note(new(At, AccountAct.AccountMade, "machine", "account:a-1"));
                    throw new InvalidOperationException();
                }
            )
        );

        Assert.Empty(accounts.Accounts());
        Assert.Empty(accounts.Acts(null, 10));
    }

    [SkippableFact]
    public void Account_ThatSignsInElsewhere_IsFoundByBothSignForSignAndByNoOther()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        var given = Account("a-1", "one") with { Elsewhere = new("https://id.example sub", "Ab-1") };
        _ = accounts.Write(writing => writing.Add(given));
        _ = accounts.Write(writing => writing.Add(Account("a-2", "two")));

        Assert.Equal(given, accounts.AccountElsewhere(new("https://id.example sub", "Ab-1")));
        Assert.Null(accounts.AccountElsewhere(new("https://id.example sub", "ab-1")));
        Assert.Null(accounts.AccountElsewhere(new("https://other.example sub", "Ab-1")));

        var back = accounts.Write(writing => writing.Replace(given with { Elsewhere = null }));
        Assert.Equal(given with { Elsewhere = null, Version = 1 }, back);
        Assert.Null(accounts.AccountElsewhere(new("https://id.example sub", "Ab-1")));
    }

    [SkippableFact]
    public void Account_KnownElsewhereAsAnotherIs_IsNeitherAddedNorChanged()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        var same = new Elsewhere("https://id.example sub", "1");
        var other = Account("a-2", "two");
        _ = accounts.Write(writing => writing.Add(Account("a-1", "one") with { Elsewhere = same }));
        _ = accounts.Write(writing => writing.Add(other));

        Assert.False(
            accounts.Write(writing => writing.Add(Account("a-3", "three") with { Elsewhere = same }))
        );
        Assert.Null(accounts.Write(writing => writing.Replace(other with { Elsewhere = same })));

        Assert.Equal("a-1", accounts.AccountElsewhere(same)!.Id);
        Assert.Equal(2, accounts.Accounts().Length);
    }

    [SkippableFact]
    public void SealedKey_Kept_IsReadAsItWasAndStaysUnderItsName()
    {
        using (var folder = Drawer.Open())
        {
            folder.SealedKeys.Add(new("key-b", new byte[] { 1, 2 }));
            folder.SealedKeys.Add(new("key-a", new byte[] { 3 }));
            folder.SealedKeys.Add(new("key-b", new byte[] { 9 }));
        }

        using var again = Drawer.Open();
        Assert.Equal(
            ["key-a 03", "key-b 0102"],
            again.SealedKeys.All().Select(key => $"{key.Name} {Convert.ToHexString(key.Sealed.Span)}")
        );
    }

    [SkippableFact]
    public void Key_Made_IsFoundByItsHashAndRevokedOnce()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        var hash = DrawnSecret.Hash("secret");
        var key = new ApiKey("k-1", "export", hash, Roles.Officer, At, At.AddDays(90))
        {
            Person = "officer-01",
        };
        Write(accounts, writing => writing.Add(key));
        Assert.Equal(key, accounts.Key(hash));
        Assert.Null(accounts.Key(DrawnSecret.Hash("another")));

        Write(accounts, writing => writing.Used("k-1", At.AddDays(1)));
        Assert.True(accounts.Write(writing => writing.Revoke("k-1", At.AddDays(2))));
        Assert.False(accounts.Write(writing => writing.Revoke("k-1", At.AddDays(3))));

        var kept = Assert.Single(accounts.Keys());
        Assert.Equal(key with { LastUsedAt = At.AddDays(1), RevokedAt = At.AddDays(2) }, kept);
        Assert.False(kept.Opens(At));
    }

    [SkippableFact]
    public void FirstSecret_IsTakenOnceAndInTime()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        var hash = DrawnSecret.Hash("secret");
        Write(accounts, writing => writing.SetFirstSecret(new(DrawnSecret.Hash("before"), At)));
        Write(accounts, writing => writing.SetFirstSecret(new(hash, At.AddHours(1))));
        Assert.Equal(new FirstSecret(hash, At.AddHours(1)), accounts.FirstSecret());

        bool Take(string secret, DateTimeOffset at) =>
            accounts.Write(writing => writing.TakeFirstSecret(DrawnSecret.Hash(secret), at));

        Assert.False(Take("before", At.AddMinutes(-1)));
        Assert.False(Take("secret", At.AddHours(1)));
        Assert.True(Take("secret", At));
        Assert.False(Take("secret", At));
        Assert.Null(accounts.FirstSecret());
    }

    [SkippableFact]
    public async Task FirstSecret_TakenByTwoAtOnce_IsTakenByOne()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        for (var round = 0; round < 20; round++)
        {
            var hash = DrawnSecret.Hash($"secret-{round}");
            Write(accounts, writing => writing.SetFirstSecret(new(hash, At.AddHours(1))));

            var taken = await Task.WhenAll(
                Enumerable
                    .Range(0, 2)
                    .Select(_ => Task.Run(() => accounts.Write(writing => writing.TakeFirstSecret(hash, At))))
            );

            Assert.Single(taken, one => one);
        }
    }

    [SkippableFact]
    public void Acts_AreReadPageByPageTheNewestFirst()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        foreach (var about in new[] { "account:a", "account:b", "account:c" })
        {
            Write(
                accounts,
                writing => writing.Note(new(At, AccountAct.RolesChanged, "key:k", about) { Detail = "lead" })
            );
        }

        var first = accounts.Acts(null, 2);
        var second = accounts.Acts(first[^1].Number, 2);

        Assert.Equal(["account:c", "account:b"], first.Select(act => act.About));
        Assert.Equal(["account:a"], second.Select(act => act.About));
        Assert.Equal(
            new AccountAct(At, AccountAct.RolesChanged, "key:k", "account:a")
            {
                Detail = "lead",
                Number = second[0].Number,
                Entry = 0,
            },
            second[0]
        );
    }

    [SkippableTheory]
    [InlineData("DELETE FROM account_act")]
    [InlineData("UPDATE account_act SET by_whom = 'nobody'")]
    public void Acts_ChangedOrRemoved_AreKept(string sql)
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        Write(accounts, writing => writing.Note(new(At, AccountAct.KeyMade, "machine", "key:k")));

        Assert.ThrowsAny<DbException>(() => Run(sql));

        Assert.Equal("machine", Assert.Single(accounts.Acts(null, 10)).By);
    }

    [SkippableFact]
    public void Store_WhoseActsAreNoLongerGuarded_TellsIt()
    {
        using var folder = Drawer.Open();
        Assert.Empty(folder.Store.Check());

        Run(DropGuard);

        Assert.Contains(
            folder.Store.Check(),
            told => told.Contains("account_act_stays", StringComparison.Ordinal)
        );
    }

    /// <summary>Nothing of the accounts is told with the log but what was done to them, without names.</summary>
    [SkippableFact]
    public void Log_OfAStoreWithAccounts_HoldsTheirActsWithoutNames()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        _ = accounts.Write(writing => writing.Add(Account("a-1", "somebody")));
        Assert.Equal((0, 0), folder.Store.Read(Counts));

        Write(
            accounts,
            writing =>
                writing.Note(new(At, AccountAct.AccountMade, "machine", "account:a-1") { Detail = "lead" })
        );

        Assert.Equal((1, 1), folder.Store.Read(Counts));
        var version = Assert.Single(new TellSubject(folder.Store).Tell("act.account-a-1"));
        Assert.Equal(EntryKind.Act, version.Entry.Entry.Kind);
        Assert.Equal(
            """{"about":"account:a-1","at":"2026-05-01T08:00:00.000Z","by":"machine","detail":"lead","format":"act/1","what":"account-made"}""",
            Encoding.UTF8.GetString(version.Content!.Value.Span)
        );
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public void Act_ChangedInTheTable_IsShownAsTheLogHasItAndTold()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        Write(
            accounts,
            writing =>
            {
                writing.Note(new(At, AccountAct.KeyMade, "account:a", "key:k"));
                writing.Note(new(At, AccountAct.KeyRevoked, "account:a", "key:k"));
            }
        );

        Run(DropChangeGuard);
        Run("UPDATE account_act SET by_whom = 'account:b' WHERE what = 'key-made'");

        var told = accounts.Acts(null, 10).Select(act => ToldAct.Of(folder.Store, act)).ToList();
        Assert.Null(told[0].Fault);
        Assert.Equal("account:a", told[1].Act.By);
        Assert.Contains("otherwise", told[1].Fault, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void SignInsLockedByGuessing_ComeIntoTheLogOnceInADay()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);
        void Guess(double hours, string account) =>
            Write(
                accounts,
                writing =>
                    writing.Note(new(At.AddHours(hours), AccountAct.SignInLocked, AccountAct.Nobody, account))
            );

        for (var hours = 0.0; hours < 24; hours += 0.5)
        {
            Guess(hours, "account:a");
        }

        Guess(1, "account:b");
        Assert.Equal(2, folder.Store.Head!.Size);

        Guess(24, "account:a");

        Assert.Equal(3, folder.Store.Head!.Size);
        var newest = accounts.Acts(null, 100);
        Assert.Equal(50, newest.Length);
        Assert.Equal(("47 more before it, not in the log", 2L), (newest[0].Detail, newest[0].Entry));
        Assert.All(
            newest.Where(act => act.Entry is not null),
            act => Assert.Null(ToldAct.Of(folder.Store, act).Fault)
        );
    }

    [SkippableFact]
    public void Acts_OfTwoThatHaveTheLogOpen_AllStandInIt()
    {
        using var one = Drawer.Open();
        using var other = Drawer.Open();
        var here = Drawer.Accounts(one);
        var there = Drawer.Accounts(other);

        for (var round = 0; round < 3; round++)
        {
            Write(here, writing => writing.Note(new(At, AccountAct.KeyMade, "machine", "key:a")));
            Write(there, writing => writing.Note(new(At, AccountAct.KeyMade, "machine", "key:b")));
        }

        Assert.Equal([5L, 4, 3, 2, 1, 0], here.Acts(null, 10).Select(act => act.Entry!.Value));
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public void Act_WithWhatNoEntryMayHold_StandsInTheLogWithoutIt()
    {
        using var folder = Drawer.Open();
        var accounts = Drawer.Accounts(folder);

        Write(
            accounts,
            writing =>
                writing.Note(
                    new(At, AccountAct.NoticeGivenUp, AccountAct.Service, "notice:7/a b")
                    {
                        Detail = "550\r\n" + new string('x', 2_000),
                    }
                )
        );

        Assert.Single(new TellSubject(folder.Store).Tell("act.notice-7-a-b"));
        Assert.Null(ToldAct.Of(folder.Store, accounts.Acts(null, 1)[0]).Fault);
    }

    /// <summary>What takes the guard away that keeps acts from being changed.</summary>
    private protected abstract string DropChangeGuard { get; }

    /// <summary>What takes the guard of the acts away.</summary>
    private protected abstract string DropGuard { get; }

    /// <summary>What somebody with the database and any tool can do.</summary>
    private protected abstract void Run(string sql);

    private static (int Entries, int Contents) Counts(ILedgerReading log) =>
        (log.Entries(0).Count(), log.Contents().Count());
}
