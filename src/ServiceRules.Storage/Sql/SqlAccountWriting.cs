using System.Data.Common;
using ServiceRules.Application.Accounts;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>One open transaction on accounts, keys and acts.</summary>
/// <param name="connection">The connection that it is open on.</param>
/// <param name="note">Takes the acts.</param>
internal sealed class SqlAccountWriting(DbConnection connection, Action<AccountAct> note)
    : SqlAccountReading(connection),
        IAccountWriting
{
    private readonly DbConnection connection = connection;

    public bool Add(Account account) =>
        connection.Execute(
            """
            INSERT INTO account (account_id, name, plain_name, roles, made_at, person, password, stamp, failures,
                locked_until, locked, must_change, version, elsewhere_provider, elsewhere_name, site)
            VALUES (@id, @name, @plain, @roles, @made, @person, @password, @stamp, @failures, @until, @locked, @change, @version,
                @provider, @elsewhere, @site)
            ON CONFLICT DO NOTHING
            """,
            [
                ("@id", account.Id),
                ("@name", account.Name),
                ("@plain", account.PlainName),
                ("@made", Milliseconds(account.MadeAt)),
                ("@version", account.Version),
                .. Changing(account),
            ]
        ) == 1;

    public Account? Replace(Account account) =>
        connection.Execute(
            """
            UPDATE account SET roles = @roles, person = @person, password = @password, stamp = @stamp, failures = @failures,
                locked_until = @until, locked = @locked, must_change = @change, site = @site, version = version + 1,
                elsewhere_provider = @provider, elsewhere_name = @elsewhere
            WHERE account_id = @id AND version = @version AND NOT EXISTS (
                SELECT 1 FROM account other WHERE other.account_id <> @id
                    AND other.elsewhere_provider = @provider AND other.elsewhere_name = @elsewhere)
            """,
            [("@id", account.Id), ("@version", account.Version), .. Changing(account)]
        ) == 1
            ? account with
            {
                Version = account.Version + 1,
            }
            : null;

    public void RemoveAccount(string id) =>
        _ = connection.Execute("DELETE FROM account WHERE account_id = @id", ("@id", id));

    public void Add(ApiKey key) =>
        _ = connection.Execute(
            """
            INSERT INTO api_key (key_id, name, hash, roles, made_at, expires_at, person, last_used_at, revoked_at, site)
            VALUES (@id, @name, @hash, @roles, @made, @expires, @person, @used, @revoked, @site)
            """,
            ("@id", key.Id),
            ("@name", key.Name),
            ("@hash", key.Hash.ToBytes()),
            ("@roles", RoleWords.Text(key.Roles)),
            ("@made", Milliseconds(key.MadeAt)),
            ("@expires", Milliseconds(key.ExpiresAt)),
            ("@person", key.Person),
            ("@used", Milliseconds(key.LastUsedAt)),
            ("@revoked", Milliseconds(key.RevokedAt)),
            ("@site", key.Site)
        );

    public void Used(string keyId, DateTimeOffset at) =>
        _ = connection.Execute(
            "UPDATE api_key SET last_used_at = @at WHERE key_id = @id",
            ("@id", keyId),
            ("@at", Milliseconds(at))
        );

    public bool Revoke(string keyId, DateTimeOffset at) =>
        connection.Execute(
            "UPDATE api_key SET revoked_at = @at WHERE key_id = @id AND revoked_at IS NULL",
            ("@id", keyId),
            ("@at", Milliseconds(at))
        ) == 1;

    public void SetFirstSecret(FirstSecret secret) =>
        _ = connection.Execute(
            """
            INSERT INTO first_secret (one, hash, expires_at) VALUES (1, @hash, @expires)
            ON CONFLICT (one) DO UPDATE SET hash = excluded.hash, expires_at = excluded.expires_at
            """,
            ("@hash", secret.Hash.ToBytes()),
            ("@expires", Milliseconds(secret.ExpiresAt))
        );

    // In one statement: of two who use it at once, one removes nothing.
    public bool TakeFirstSecret(ContentHash hash, DateTimeOffset at) =>
        connection.Execute(
            "DELETE FROM first_secret WHERE hash = @hash AND expires_at > @at",
            ("@hash", hash.ToBytes()),
            ("@at", Milliseconds(at))
        ) == 1;

    public bool AddSite(string name) =>
        connection.Execute(
            """
            INSERT INTO served_site (name, came)
            VALUES (@name, (SELECT COALESCE(MAX(came), 0) + 1 FROM served_site))
            ON CONFLICT (name) DO NOTHING
            """,
            ("@name", name)
        ) == 1;

    public void SettleAt(string site)
    {
        _ = connection.Execute(
            "UPDATE account SET site = @site, version = version + 1 WHERE site IS NULL",
            ("@site", site)
        );
        _ = connection.Execute("UPDATE api_key SET site = @site WHERE site IS NULL", ("@site", site));
    }

    public void Note(AccountAct act) => note(act);

    private static (string, object?)[] Changing(Account account) =>
        [
            ("@roles", RoleWords.Text(account.Roles)),
            ("@person", account.Person),
            ("@site", account.Site),
            ("@password", account.Password),
            ("@stamp", account.Stamp),
            ("@failures", (long)account.Failures),
            ("@until", Milliseconds(account.LockedUntil)),
            ("@locked", account.IsLocked ? 1L : 0L),
            ("@change", account.MustChange ? 1L : 0L),
            ("@provider", account.Elsewhere?.Provider),
            ("@elsewhere", account.Elsewhere?.Name),
        ];

    private static long Milliseconds(DateTimeOffset at) => at.ToUnixTimeMilliseconds();

    private static long? Milliseconds(DateTimeOffset? at) => at?.ToUnixTimeMilliseconds();
}
