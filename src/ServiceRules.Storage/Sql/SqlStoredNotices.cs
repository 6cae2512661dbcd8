using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using ServiceRules.Application.Notices;

namespace ServiceRules.Storage.Sql;

/// <summary>Notices, each question on a connection of its own.</summary>
internal sealed class SqlStoredNotices(SqlLedgerStore store) : INoticeTable
{
    private const string Columns = "entry_index, recipient, due_at, attempts, failure, state, site";

    public ImmutableArray<Notice> Waiting(long from) =>
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    $"SELECT {Columns} FROM notice WHERE state = 0 AND (entry_index >= @from OR renewed > 0 OR entry_index < 0) ORDER BY entry_index, recipient",
                    Of,
                    ("@from", from)
                )
            ),
        ];

    public ImmutableArray<Notice> In(
        NoticeState state,
        Notice? after,
        int most,
        ImmutableArray<string>? among = null
    )
    {
        if (among is { IsEmpty: true })
        {
            return [];
        }

        (string Name, object? Value)[] sites =
        [
            .. (among ?? []).Select(
                (site, at) => ("@site" + at.ToString(CultureInfo.InvariantCulture), (object?)site)
            ),
        ];
        var seen = among is null ? "" : $"AND site IN ({string.Join(", ", sites.Select(one => one.Name))})";
        return
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    // The state is written out: an index of one state is found by nothing else. The place stands there twice, since an
                    // index is not entered by a choice of two.
                    $"""
                    SELECT {Columns} FROM notice
                    WHERE state = {Number(state)} {seen} AND entry_index <= @entry
                        AND (entry_index < @entry OR recipient > @recipient)
                    ORDER BY entry_index DESC, recipient LIMIT @most
                    """,
                    Of,
                    [
                        ("@entry", after?.Entry ?? long.MaxValue),
                        ("@recipient", after?.Recipient ?? ""),
                        ("@most", (long)most),
                        .. sites,
                    ]
                )
            ),
        ];
    }

    public Notice? Find(long entry, string recipient) =>
        store.OnConnection(connection =>
            connection
                .Rows(
                    $"SELECT {Columns} FROM notice WHERE entry_index = @entry AND recipient = @recipient",
                    Of,
                    ("@entry", entry),
                    ("@recipient", recipient)
                )
                .SingleOrDefault()
        );

    public NoticeCount Count() =>
        store.OnConnection(connection => new NoticeCount(
            connection.Rows("SELECT COUNT(*) FROM notice WHERE state = 0", row => row.Number(0)).Single(),
            connection.Rows("SELECT COUNT(*) FROM notice WHERE state = 2", row => row.Number(0)).Single(),
            connection
                .Rows("SELECT MIN(due_at) FROM notice WHERE state = 0", row => row.NumberOrNone(0))
                .Single()
                is { } oldest
                ? DateTimeOffset.FromUnixTimeMilliseconds(oldest)
                : null
        ));

    public void Tried(Notice notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        _ = store.WriteBeside(connection => Settle(connection, notice));
    }

    public static void Owe(DbConnection connection, Notice notice) =>
        _ = connection.Execute(
            """
            INSERT INTO notice (entry_index, recipient, due_at, attempts, state, site)
            VALUES (@entry, @recipient, @at, 0, 0, @site) ON CONFLICT (entry_index, recipient) DO NOTHING
            """,
            ("@entry", notice.Entry),
            ("@recipient", notice.Recipient),
            ("@at", notice.At.ToUnixTimeMilliseconds()),
            ("@site", notice.Site)
        );

    public static bool Settle(DbConnection connection, Notice notice) =>
        connection.Execute(
            """
            UPDATE notice SET attempts = @attempts, failure = @failure, state = @state
            WHERE entry_index = @entry AND recipient = @recipient AND state = 0
            """,
            ("@attempts", (long)notice.Attempts),
            ("@failure", notice.Failure),
            ("@state", (long)notice.State),
            ("@entry", notice.Entry),
            ("@recipient", notice.Recipient)
        ) > 0;

    public static bool Renew(DbConnection connection, long entry, string recipient) =>
        connection.Execute(
            """
            UPDATE notice SET state = 0, attempts = 0, renewed = renewed + 1
            WHERE entry_index = @entry AND recipient = @recipient AND state = 2
            """,
            ("@entry", entry),
            ("@recipient", recipient)
        ) > 0;

    private static string Number(NoticeState state) => ((int)state).ToString(CultureInfo.InvariantCulture);

    private static Notice Of(DbDataReader row) =>
        new(row.Number(0), row.Text(1), DateTimeOffset.FromUnixTimeMilliseconds(row.Number(2)))
        {
            Attempts = (int)row.Number(3),
            Failure = row.TextOrNone(4),
            State = (NoticeState)row.Number(5),
            Site = row.TextOrNone(6),
        };
}
