using System.Data.Common;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Tests.Accounts;

/// <summary>What every database must keep of accounts, keys and acts, and what it must refuse.</summary>
public abstract class AccountContract : IAsyncLifetime
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private readonly Lazy<Drawer> _drawer;

    private protected AccountContract(Func<Drawer> drawer) => _drawer = new(drawer);

    private protected Drawer Drawer => _drawer.Value;

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync()
    {
        if (_drawer.IsValueCreated)
        {
            _drawer.Value.Dispose();
        }

        return Task.CompletedTask;
    }

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
            Assert.True(folder.Accounts.Write(writing => writing.Add(given)));
        }

        using var again = Drawer.Open();
        Assert.Equal(given, again.Accounts.Account("a-1"));
        Assert.Equal(given, again.Accounts.AccountNamed("LEAD.A"));
        Assert.Equal(given, Assert.Single(again.Accounts.Accounts()));
        Assert.Null(again.Accounts.AccountNamed("Lead.A"));
        Assert.Null(again.Accounts.Account("a-2"));
    }

    [SkippableFact]
    public void Account_OfANameThatIsTaken_IsNotAdded()
    {
        using var folder = Drawer.Open();
        Assert.True(folder.Accounts.Write(writing => writing.Add(Account("a-1", "same"))));

        Assert.False(folder.Accounts.Write(writing => writing.Add(Account("a-2", "Same"))));

        Assert.Equal("a-1", Assert.Single(folder.Accounts.Accounts()).Id);
    }

    [SkippableFact]
    public void Account_ReplacedByTwo_TakesTheFirstAlone()
    {
        using var folder = Drawer.Open();
        _ = folder.Accounts.Write(writing => writing.Add(Account("a-1", "one")));
        var read = folder.Accounts.Account("a-1")!;

        var first = folder.Accounts.Write(writing => writing.Replace(read with { Failures = 1 }));
        var second = folder.Accounts.Write(writing => writing.Replace(read with { Failures = 5 }));

        Assert.Equal(read with { Failures = 1, Version = 1 }, first);
        Assert.Null(second);
        Assert.Equal(first, folder.Accounts.Account("a-1"));
    }

    [SkippableFact]
    public void Account_Removed_IsGone()
    {
        using var folder = Drawer.Open();
        _ = folder.Accounts.Write(writing => writing.Add(Account("a-1", "one")));

        Write(folder.Accounts, writing => writing.RemoveAccount("a-1"));

        Assert.Empty(folder.Accounts.Accounts());
    }

    [SkippableFact]
    public void Transaction_ThatThrows_LeavesNothing()
    {
        using var folder = Drawer.Open();

        Assert.Throws<InvalidOperationException>(() =>
            Write(
                folder.Accounts,
                writing =>
                {
                    _ = writing.Add(Account("a-1", "one"));
                    writing.Note(new(At, AccountAct.AccountMade, "machine", "account:a-1"));
                    throw new InvalidOperationException();
                }
            )
        );

        Assert.Empty(folder.Accounts.Accounts());
        Assert.Empty(folder.Accounts.Acts(null, 10));
    }

    [SkippableFact]
    public void Key_Made_IsFoundByItsHashAndRevokedOnce()
    {
        using var folder = Drawer.Open();
        var hash = DrawnSecret.Hash("secret");
        var key = new ApiKey("k-1", "export", hash, Roles.Officer, At, At.AddDays(90))
        {
            Person = "officer-01",
        };
        Write(folder.Accounts, writing => writing.Add(key));
        Assert.Equal(key, folder.Accounts.Key(hash));
        Assert.Null(folder.Accounts.Key(DrawnSecret.Hash("another")));

        Write(folder.Accounts, writing => writing.Used("k-1", At.AddDays(1)));
        Assert.True(folder.Accounts.Write(writing => writing.Revoke("k-1", At.AddDays(2))));
        Assert.False(folder.Accounts.Write(writing => writing.Revoke("k-1", At.AddDays(3))));

        var kept = Assert.Single(folder.Accounts.Keys());
        Assert.Equal(key with { LastUsedAt = At.AddDays(1), RevokedAt = At.AddDays(2) }, kept);
        Assert.False(kept.Opens(At));
    }

    [SkippableFact]
    public void FirstSecret_IsTakenOnceAndInTime()
    {
        using var folder = Drawer.Open();
        var hash = DrawnSecret.Hash("secret");
        Write(folder.Accounts, writing => writing.SetFirstSecret(new(DrawnSecret.Hash("before"), At)));
        Write(folder.Accounts, writing => writing.SetFirstSecret(new(hash, At.AddHours(1))));
        Assert.Equal(new FirstSecret(hash, At.AddHours(1)), folder.Accounts.FirstSecret());

        bool Take(string secret, DateTimeOffset at) =>
            folder.Accounts.Write(writing => writing.TakeFirstSecret(DrawnSecret.Hash(secret), at));

        Assert.False(Take("before", At.AddMinutes(-1)));
        Assert.False(Take("secret", At.AddHours(1)));
        Assert.True(Take("secret", At));
        Assert.False(Take("secret", At));
        Assert.Null(folder.Accounts.FirstSecret());
    }

    [SkippableFact]
    public async Task FirstSecret_TakenByTwoAtOnce_IsTakenByOne()
    {
        using var folder = Drawer.Open();
        for (var round = 0; round < 20; round++)
        {
            var hash = DrawnSecret.Hash($"secret-{round}");
            Write(folder.Accounts, writing => writing.SetFirstSecret(new(hash, At.AddHours(1))));

            var taken = await Task.WhenAll(
                Enumerable
                    .Range(0, 2)
                    .Select(_ =>
                        Task.Run(() => folder.Accounts.Write(writing => writing.TakeFirstSecret(hash, At)))
                    )
            );

            Assert.Single(taken, one => one);
        }
    }

    [SkippableFact]
    public void Acts_AreReadPageByPageTheNewestFirst()
    {
        using var folder = Drawer.Open();
        foreach (var about in new[] { "account:a", "account:b", "account:c" })
        {
            Write(
                folder.Accounts,
                writing => writing.Note(new(At, AccountAct.RolesChanged, "key:k", about) { Detail = "lead" })
            );
        }

        var first = folder.Accounts.Acts(null, 2);
        var second = folder.Accounts.Acts(first[^1].Number, 2);

        Assert.Equal(["account:c", "account:b"], first.Select(act => act.About));
        Assert.Equal(["account:a"], second.Select(act => act.About));
        Assert.Equal(
            new AccountAct(At, AccountAct.RolesChanged, "key:k", "account:a")
            {
                Detail = "lead",
                Number = second[0].Number,
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
        Write(folder.Accounts, writing => writing.Note(new(At, AccountAct.KeyMade, "machine", "key:k")));

        Assert.ThrowsAny<DbException>(() => Run(sql));

        Assert.Equal("machine", Assert.Single(folder.Accounts.Acts(null, 10)).By);
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

    /// <summary>Nothing of the accounts is told with the log.</summary>
    [SkippableFact]
    public void Log_OfAStoreWithAccounts_HoldsNothingOfThem()
    {
        using var folder = Drawer.Open();
        _ = folder.Accounts.Write(writing => writing.Add(Account("a-1", "one")));
        Write(folder.Accounts, writing => writing.Note(new(At, AccountAct.AccountMade, "machine", "a-1")));

        Assert.Equal((0, 0), folder.Store.Read(Counts));
    }

    /// <summary>What takes the guard of the acts away.</summary>
    private protected abstract string DropGuard { get; }

    /// <summary>What somebody with the database and any tool can do.</summary>
    private protected abstract void Run(string sql);

    private static (int Entries, int Contents) Counts(ILedgerReading log) =>
        (log.Entries(0).Count(), log.Contents().Count());
}
