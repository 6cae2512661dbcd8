using System.Collections.Immutable;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Storage.Sql;

/// <summary>Sealed keys, each question on a connection of its own.</summary>
internal sealed class SqlSealedKeys(SqlLedgerStore store) : ISealedKeyStore
{
    public ImmutableArray<SealedKey> All() =>
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    "SELECT name, sealed FROM protection_key ORDER BY name",
                    row => new SealedKey(row.Text(0), row.Bytes(1))
                )
            ),
        ];

    public void Add(SealedKey key) =>
        _ = store.WriteBeside(connection =>
            connection.Execute(
                "INSERT INTO protection_key (name, sealed) VALUES (@name, @sealed) ON CONFLICT (name) DO NOTHING",
                ("@name", key.Name),
                ("@sealed", key.Sealed.ToArray())
            )
        );
}
