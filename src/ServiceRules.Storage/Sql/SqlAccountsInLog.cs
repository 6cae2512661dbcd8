using System.Data.Common;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Storage.Sql;

/// <summary>Accounts and acts in an open transaction on the log.</summary>
internal sealed class SqlAccountsInLog(DbConnection connection) : IAccountsInLog
{
    public IAccountWriting Writing(Action<AccountAct> note) => new SqlAccountWriting(connection, note);

    public void Keep(AccountAct act) =>
        _ = connection.Execute(
            """
            INSERT INTO account_act (at, what, by_whom, about, detail, entry_index)
            VALUES (@at, @what, @by, @about, @detail, @entry)
            """,
            ("@at", act.At.ToUnixTimeMilliseconds()),
            ("@what", act.What),
            ("@by", act.By),
            ("@about", act.About),
            ("@detail", act.Detail),
            ("@entry", act.Entry)
        );

    public bool AreSeveralSites() =>
        connection.One<string>("SELECT name FROM served_site LIMIT 1") is not null;

    public void Unname(string person) =>
        _ = connection.Execute(
            "UPDATE api_key SET person = NULL WHERE person = @person",
            ("@person", person)
        );

    public (DateTimeOffset? At, long Since) LastLogged(string what, string about)
    {
        var last = connection
            .Rows(
                """
                SELECT number, at FROM account_act
                WHERE about = @about AND what = @what AND entry_index IS NOT NULL ORDER BY number DESC LIMIT 1
                """,
                row => (Number: row.Number(0), At: row.Number(1)),
                ("@about", about),
                ("@what", what)
            )
            .Select(one => ((long Number, long At)?)one)
            .SingleOrDefault();
        var since = connection
            .Rows(
                "SELECT COUNT(*) FROM account_act WHERE about = @about AND what = @what AND number > @number",
                row => row.Number(0),
                ("@about", about),
                ("@what", what),
                ("@number", last?.Number ?? 0L)
            )
            .Single();
        return (last is { } one ? DateTimeOffset.FromUnixTimeMilliseconds(one.At) : null, since);
    }
}
