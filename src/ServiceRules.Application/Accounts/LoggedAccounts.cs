using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>Accounts and keys of which every act stands in the log.</summary>
/// <param name="ledger">The log.</param>
/// <param name="reading">What is asked of its database.</param>
public sealed class LoggedAccounts(OpenLedger ledger, IAccountReading reading) : IAccountStore
{
    private readonly LoggedActs acts = new(ledger);

    public Account? Account(string id) => reading.Account(id);

    public Account? AccountNamed(string plainName) => reading.AccountNamed(plainName);

    public Account? AccountElsewhere(Elsewhere elsewhere) => reading.AccountElsewhere(elsewhere);

    public ImmutableArray<Account> Accounts() => reading.Accounts();

    public ApiKey? Key(ContentHash hash) => reading.Key(hash);

    public ImmutableArray<ApiKey> Keys() => reading.Keys();

    public ImmutableArray<AccountAct> Acts(long? before, int most) => reading.Acts(before, most);

    public FirstSecret? FirstSecret() => reading.FirstSecret();

    public ImmutableArray<string> Sites() => reading.Sites();

    public T Write<T>(Func<IAccountWriting, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return acts.Write((log, note) => work(log.Accounts.Writing(note)));
    }
}
