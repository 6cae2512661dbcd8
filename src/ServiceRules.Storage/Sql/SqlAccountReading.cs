using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>Accounts, keys and acts as they stand in tables: milliseconds since 1970-01-01 in UTC, 0 and 1.</summary>
internal class SqlAccountReading(DbConnection connection) : IAccountReading
{
    private const string AccountColumns =
        "account_id, name, plain_name, roles, made_at, person, password, stamp, failures, locked_until, locked, must_change, version, "
        + "elsewhere_provider, elsewhere_name, site";

    private const string KeyColumns =
        "key_id, name, hash, roles, made_at, expires_at, person, last_used_at, revoked_at, site";

    public Account? Account(string id) =>
        connection
            .Rows($"SELECT {AccountColumns} FROM account WHERE account_id = @id", OfAccount, ("@id", id))
            .SingleOrDefault();

    public Account? AccountNamed(string plainName) =>
        connection
            .Rows(
                $"SELECT {AccountColumns} FROM account WHERE plain_name = @name",
                OfAccount,
                ("@name", plainName)
            )
            .SingleOrDefault();

    public Account? AccountElsewhere(Elsewhere elsewhere) =>
        connection
            .Rows(
                $"SELECT {AccountColumns} FROM account WHERE elsewhere_provider = @provider AND elsewhere_name = @name",
                OfAccount,
                ("@provider", elsewhere.Provider),
                ("@name", elsewhere.Name)
            )
            .SingleOrDefault();

    public ImmutableArray<Account> Accounts() =>
        [.. connection.Rows($"SELECT {AccountColumns} FROM account ORDER BY plain_name", OfAccount)];

    public ApiKey? Key(ContentHash hash) =>
        connection
            .Rows($"SELECT {KeyColumns} FROM api_key WHERE hash = @hash", OfKey, ("@hash", hash.ToBytes()))
            .SingleOrDefault();

    public ImmutableArray<ApiKey> Keys() =>
        [.. connection.Rows($"SELECT {KeyColumns} FROM api_key ORDER BY made_at DESC, key_id", OfKey)];

    public ImmutableArray<AccountAct> Acts(long? before, int most) =>
        [
            .. connection.Rows(
                """
                SELECT number, at, what, by_whom, about, detail, entry_index FROM account_act
                WHERE number < @before ORDER BY number DESC LIMIT @most
                """,
                OfAct,
                ("@before", before ?? long.MaxValue),
                ("@most", (long)most)
            ),
        ];

    public FirstSecret? FirstSecret() =>
        connection
            .Rows(
                "SELECT hash, expires_at FROM first_secret WHERE one = 1",
                row => new FirstSecret(Hash(row, 0), Time(row.Number(1)))
            )
            .SingleOrDefault();

    public ImmutableArray<string> Sites() =>
        [.. connection.Rows("SELECT name FROM served_site ORDER BY came, name", row => row.Text(0))];

    private static Account OfAccount(DbDataReader row) =>
        new(row.Text(0), row.Text(1), row.Text(2), RoleWords.Read(row.Text(3)), Time(row.Number(4)))
        {
            Person = row.TextOrNone(5),
            Password = row.TextOrNone(6),
            Stamp = row.Text(7),
            Failures = (int)row.Number(8),
            LockedUntil = TimeOrNone(row.NumberOrNone(9)),
            IsLocked = row.Number(10) == 1,
            MustChange = row.Number(11) == 1,
            Version = row.Number(12),
            Elsewhere = row.TextOrNone(13) is { } provider ? new(provider, row.Text(14)) : null,
            Site = row.TextOrNone(15),
        };

    private static ApiKey OfKey(DbDataReader row) =>
        new(
            row.Text(0),
            row.Text(1),
            Hash(row, 2),
            RoleWords.Read(row.Text(3)),
            Time(row.Number(4)),
            Time(row.Number(5))
        )
        {
            Person = row.TextOrNone(6),
            LastUsedAt = TimeOrNone(row.NumberOrNone(7)),
            RevokedAt = TimeOrNone(row.NumberOrNone(8)),
            Site = row.TextOrNone(9),
        };

    private static AccountAct OfAct(DbDataReader row) =>
        new(Time(row.Number(1)), row.Text(2), row.Text(3), row.Text(4))
        {
            Number = row.Number(0),
            Detail = row.TextOrNone(5),
            Entry = row.NumberOrNone(6),
        };

    private static DateTimeOffset Time(long milliseconds) =>
        DateTimeOffset.FromUnixTimeMilliseconds(milliseconds);

    private static DateTimeOffset? TimeOrNone(long? milliseconds) =>
        milliseconds is { } some ? Time(some) : null;

    private static ContentHash Hash(DbDataReader row, int column) =>
        ContentHash.TryFromBytes(row.Bytes(column), out var hash)
            ? hash
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                "the database is damaged: a digest is of another length"
            );
}
