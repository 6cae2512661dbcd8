using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Accounts;

/// <summary>The accounts and keys that stand for a person.</summary>
internal sealed record AccountsOf(
    string Person,
    ImmutableArray<Account> Accounts,
    ImmutableArray<ApiKey> Keys,
    bool IsLastAdministrator
)
{
    public bool IsEmpty => Accounts.IsEmpty && Keys.IsEmpty;

    public static AccountsOf Read(ILedgerWriting log, string person)
    {
        var reading = log.Accounts.Writing(_ => { });
        var all = reading.Accounts();
        var own = all.Where(account => account.Person == person).ToImmutableArray();
        return new(
            person,
            own,
            [.. reading.Keys().Where(key => key.Person == person)],
            own.Any(Opens) && !all.Except(own).Any(Opens)
        );
    }

    /// <summary>Removes the accounts, which ends their sessions, revokes the keys, and names the person in none of them.</summary>
    /// <returns>The acts that tell of it.</returns>
    public IEnumerable<AccountAct> Remove(ILedgerWriting log, DateTimeOffset at, string caller)
    {
        var acts = new List<AccountAct>();
        var writing = log.Accounts.Writing(acts.Add);
        foreach (var account in Accounts)
        {
            writing.RemoveAccount(account.Id);
            writing.Note(new(at, AccountAct.AccountRemoved, caller, AccountAct.OfAccount(account.Id)));
        }

        foreach (var key in Keys.Where(key => writing.Revoke(key.Id, at)))
        {
            writing.Note(new(at, AccountAct.KeyRevoked, caller, AccountAct.OfKey(key.Id)));
        }

        log.Accounts.Unname(Person);
        return acts;
    }

    private static bool Opens(Account account) =>
        !account.IsLocked && account.Roles.HasFlag(Roles.Administrator);
}
