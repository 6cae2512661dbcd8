using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>Accounts, keys and acts, each question on a connection of its own.</summary>
internal sealed class SqlStoredAccounts(SqlLedgerStore store) : IAccountReading
{
    public Account? Account(string id) => Ask(accounts => accounts.Account(id));

    public Account? AccountNamed(string plainName) => Ask(accounts => accounts.AccountNamed(plainName));

    public Account? AccountElsewhere(Elsewhere elsewhere) =>
        Ask(accounts => accounts.AccountElsewhere(elsewhere));

    public ImmutableArray<Account> Accounts() => Ask(accounts => accounts.Accounts());

    public ApiKey? Key(ContentHash hash) => Ask(accounts => accounts.Key(hash));

    public ImmutableArray<ApiKey> Keys() => Ask(accounts => accounts.Keys());

    public ImmutableArray<AccountAct> Acts(long? before, int most) =>
        Ask(accounts => accounts.Acts(before, most));

    public FirstSecret? FirstSecret() => Ask(accounts => accounts.FirstSecret());

    public ImmutableArray<string> Sites() => Ask(accounts => accounts.Sites());

    private T Ask<T>(Func<SqlAccountReading, T> question) =>
        store.OnConnection(connection => question(new SqlAccountReading(connection)));
}
