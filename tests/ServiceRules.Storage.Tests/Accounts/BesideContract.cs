using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Accounts;

/// <summary>Acts and what is in force, changed in their tables behind the product's back: verifying names each.</summary>
public abstract class BesideContract : DrawerContract
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

    private protected BesideContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableTheory]
    [InlineData(
        "UPDATE account_act SET by_whom = 'key:other' WHERE number = 2",
        "act 2 of the table: it says `roles-changed` by `key:other`"
    )]
    [InlineData("UPDATE account_act SET at = at + 1 WHERE number = 2", "act 2 of the table: it says")]
    [InlineData("UPDATE account_act SET detail = 'lead' WHERE number = 2", "act 2 of the table: it says")]
    [InlineData(
        "DELETE FROM account_act WHERE number = 2",
        "entry 1: it is an act, and the table of acts has no row of it"
    )]
    [InlineData(
        "UPDATE account_act SET entry_index = 0 WHERE number = 2",
        "another row says that it is of entry 0 as well"
    )]
    [InlineData(
        "UPDATE account_act SET entry_index = NULL WHERE number = 3",
        "it is `key-made`, and has no entry in the log"
    )]
    [InlineData(
        "INSERT INTO account_act (at, what, by_whom, about) VALUES (5, 'roles-changed', 'key:k', 'account:a')",
        "act 4 of the table: it is `roles-changed`, and has no entry in the log"
    )]
    [InlineData(
        "UPDATE account_act SET entry_index = 3 WHERE number = 2",
        "said to be entry 3, and no act stands there"
    )]
    public void Act_ChangedInItsTable_IsNamed(string sql, string named)
    {
        using (var folder = Drawer.Open())
        {
            var accounts = Drawer.Accounts(folder);
            Note(accounts, AccountAct.AccountMade);
            Note(accounts, AccountAct.RolesChanged);
            Note(accounts, AccountAct.KeyMade);
        }

        Drawer.File(1);
        Assert.Empty(Drawer.Verify().Faults);

        Drawer.Unguarded(sql);

        var faults = Drawer.Verify().Faults;
        Assert.All(faults, fault => Assert.Equal(LedgerFaultCode.Act, fault.Code));
        Assert.Contains(faults, fault => fault.ToString().Contains(named, StringComparison.Ordinal));
    }

    [SkippableFact]
    public void Act_OfAnAccountLockedByGuessing_MayHaveNoEntry()
    {
        using (var folder = Drawer.Open())
        {
            var accounts = Drawer.Accounts(folder);
            Note(accounts, AccountAct.AccountMade);
            Note(accounts, AccountAct.SignInLocked);
            Note(accounts, AccountAct.SignInLocked);
            Note(accounts, AccountAct.KeyMade);
        }

        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableTheory]
    [InlineData(
        "UPDATE rule_activation SET reason = 'other' WHERE number = 2",
        "activation 2: its reason is `other`"
    )]
    [InlineData(
        "UPDATE rule_activation SET digest = 'sha256:00' WHERE number = 2",
        "activation 2: its digest is"
    )]
    [InlineData("UPDATE rule_activation SET at = at + 1 WHERE number = 2", "activation 2: its at is")]
    [InlineData(
        "UPDATE rule_activation SET entry_index = NULL WHERE number = 2",
        "activation 2: it has no entry in the log"
    )]
    [InlineData(
        "UPDATE rule_activation SET entry_index = 0 WHERE number = 2",
        "no rules came into force there"
    )]
    [InlineData(
        "DELETE FROM rule_activation WHERE number = 2",
        "the table of what is in force has no row of it"
    )]
    [InlineData("DELETE FROM rule_activation WHERE number = 1", "one before it is missing")]
    [InlineData(
        "UPDATE rule_set SET book = (SELECT bytes FROM entry WHERE entry_index = 0)",
        "other rules are stored"
    )]
    public void Activation_ChangedInItsTable_IsNamed(string sql, string named)
    {
        Activate();
        Assert.Empty(Drawer.Verify().Faults);

        Drawer.Unguarded(sql);

        var faults = Drawer.Verify().Faults;
        Assert.All(faults, fault => Assert.Equal(LedgerFaultCode.Activation, fault.Code));
        Assert.Contains(faults, fault => fault.ToString().Contains(named, StringComparison.Ordinal));
    }

    [SkippableTheory]
    [InlineData(
        "UPDATE site_waiver SET withdrawn_at = NULL, withdrawn_entry = NULL WHERE number = 1",
        "a waiver was withdrawn, and the table of waivers does not say so"
    )]
    [InlineData(
        "UPDATE site_waiver SET withdrawn_at = 5, withdrawn_entry = 2 WHERE number = 2",
        "waiver 2 of the table: it is said to be withdrawn"
    )]
    [InlineData(
        "UPDATE site_waiver SET entry_index = 0 WHERE number = 2",
        "waiver 2 of the table: it is said to be entry 0"
    )]
    [InlineData(
        "UPDATE site_waiver SET at = at + 1 WHERE number = 2",
        "waiver 2 of the table: it is said to be entry 3"
    )]
    [InlineData(
        "DELETE FROM site_waiver WHERE number = 2",
        "entry 3: a waiver was entered, and the table of waivers has no row of it"
    )]
    [InlineData(
        "UPDATE site_waiver SET site = 'elsewhere' WHERE number = 2",
        "waiver 2 of the table: it is said to count at `elsewhere`, and was entered at another site"
    )]
    public void Waiver_ChangedInItsTable_IsNamed(string sql, string named)
    {
        using (var folder = Drawer.Open())
        {
            var ledger = Drawer.Opened(folder);
            var waiving = new KeepWaivers(ledger, Jobs.Rules.Library, Jobs.Rules.Site!.Name, false);
            _ = Assert.IsType<WaiverOutcome.Done>(waiving.Enter(Jobs.Rules.Book, Wet, "key:k"));
            _ = Assert.IsType<WaiverOutcome.Done>(waiving.Withdraw(1, "mended", "key:k"));
            _ = Assert.IsType<WaiverOutcome.Done>(waiving.Enter(Jobs.Rules.Book, Wet, "key:k"));
        }

        Assert.Empty(Drawer.Verify().Faults);

        Drawer.Unguarded(sql);

        var faults = Drawer.Verify().Faults;
        Assert.All(faults, fault => Assert.Equal(LedgerFaultCode.Waiver, fault.Code));
        Assert.Contains(faults, fault => fault.ToString().Contains(named, StringComparison.Ordinal));
    }

    private void Activate()
    {
        using var folder = Drawer.Open();
        var ledger = Drawer.Opened(folder);
        var first = RuleDocument.Of(Jobs.Rules.Book);
        _ = folder.Rules.Begin(first.Digest, first.Bytes, At, "first");
        var second = RuleDocument.Of(Fewer(Jobs.Rules.Book));
        _ = new StoreRules(ledger).Keep(second, AccountAct.Machine);
        Assert.IsType<ActivationOutcome.Activated>(
            new ActivateRules(ledger, folder.Rules).Activate(second.Digest, null, "fewer", AccountAct.Machine)
        );
    }

    private static RuleBook Fewer(RuleBook book) => book with { Sheets = book.Sheets.RemoveAt(0) };

    private static void Note(IAccountStore accounts, string what) =>
        accounts.Write(writing =>
        {
            writing.Note(new AccountAct(At, what, "key:k", "account:a") { Detail = "clerk" });
            return true;
        });
}
