using System.Data.Common;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>One open transaction on waivers; the head of the log is locked meanwhile.</summary>
internal sealed class SqlWaiverWriting(DbConnection connection) : SqlWaiverReading(connection), IWaiverWriting
{
    private readonly DbConnection connection = connection;

    public long Keep(string site, string subject, ContentHash content, DateTimeOffset at, long entry)
    {
        var number =
            connection.Rows("SELECT COALESCE(MAX(number), 0) FROM site_waiver", row => row.Number(0)).Single()
            + 1;
        _ = connection.Execute(
            """
            INSERT INTO site_waiver (number, site, subject, content, at, entry_index)
            VALUES (@number, @site, @subject, @content, @at, @entry)
            """,
            ("@number", number),
            ("@site", site),
            ("@subject", subject),
            ("@content", content.ToBytes()),
            ("@at", at.ToUnixTimeMilliseconds()),
            ("@entry", entry)
        );
        return number;
    }

    public void Withdraw(long number, DateTimeOffset at, long entry) =>
        _ = connection.Execute(
            """
            UPDATE site_waiver SET withdrawn_at = @at, withdrawn_entry = @entry
            WHERE number = @number AND withdrawn_at IS NULL
            """,
            ("@at", at.ToUnixTimeMilliseconds()),
            ("@entry", entry),
            ("@number", number)
        );
}
