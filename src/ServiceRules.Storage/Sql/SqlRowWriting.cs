using System.Data.Common;
using System.Globalization;
using System.Text;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>Rows changed in an open transaction.</summary>
internal sealed class SqlRowWriting(DbConnection connection) : SqlRowReading(connection), IRowWriting
{
    /// <summary>Rows of one statement: beyond it the number of parameters of a statement would be the limit.</summary>
    private const int Together = 100;

    /// <summary>Answers that are removed when one is kept: no filing waits for the removal of many.</summary>
    private const long AgedTogether = 100;

    private readonly DbConnection connection = connection;

    public void Put(RecordRows rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Remove("entry_index = @index", ("@index", rows.Record.Index));
        List<object?[]> units = [.. rows.Units.Select(SqlRows.Values)];
        List<object?[]> findings = [.. rows.Findings.Select(SqlRows.Values)];
        // What others showed bears on nothing any more.
        List<object?[]> shown = rows.Record.IsNewest
            ? [.. rows.Shown.Select(one => SqlShown.Values(rows.Record.Index, one))]
            : [];
        Insert(
            "record_row",
            SqlHeldRows.WrittenColumns,
            [
                [.. SqlRows.Values(rows.Record), .. Digests(rows.Record, units, findings, shown)],
            ]
        );
        Insert("unit_row", SqlHeldRows.Units, units);
        Insert("finding_row", SqlHeldRows.Findings, findings);
        Insert("shown_row", SqlHeldRows.Shown, shown);
    }

    public void Supersede(string record, long newest)
    {
        _ = connection.Execute(
            """
            DELETE FROM shown_row WHERE entry_index IN (
                SELECT entry_index FROM record_row WHERE record = @record AND entry_index <> @newest)
            """,
            ("@record", record),
            ("@newest", newest)
        );
        _ = connection.Execute(
            """
            UPDATE record_row SET newest = 0, digest = overtaken_digest, overtaken_digest = NULL, shown_digest = @none
            WHERE record = @record AND entry_index <> @newest AND newest = 1
            """,
            ("@none", SqlRowDigest.None),
            ("@record", record),
            ("@newest", newest)
        );
    }

    public IReadOnlyList<string> RecordsMadeOf(string content) =>
        connection.Rows(
            """
            SELECT record FROM record_row WHERE record_hash = @content
            UNION SELECT record FROM record_row WHERE assessment_hash = @content
            """,
            row => row.Text(0),
            ("@content", content)
        );

    public void Drop(string record)
    {
        _ = connection.Execute(
            "DELETE FROM answered_key WHERE record_index IN (SELECT entry_index FROM record_row WHERE record = @record)",
            ("@record", record)
        );
        Remove(
            "entry_index IN (SELECT entry_index FROM record_row WHERE record = @record)",
            ("@record", record)
        );
    }

    public void Clear(long from, long until) =>
        Remove("entry_index >= @from AND entry_index < @until", ("@from", from), ("@until", until));

    public void Cover(long size) =>
        _ = connection.Execute(
            """
            INSERT INTO row_cover (one, size) VALUES (1, @size)
            ON CONFLICT (one) DO UPDATE SET size = excluded.size
            """,
            ("@size", size)
        );

    public void Keep(AnsweredKey answered)
    {
        ArgumentNullException.ThrowIfNull(answered);
        _ = connection.Execute(
            """
            DELETE FROM answered_key WHERE (scope, key) IN (
                SELECT scope, key FROM answered_key WHERE answered_at < @aged ORDER BY answered_at LIMIT @most)
            """,
            ("@aged", (answered.At - AnsweredKey.KeptFor).ToUnixTimeMilliseconds()),
            ("@most", AgedTogether)
        );
        _ = connection.Execute(
            """
            INSERT INTO answered_key (scope, key, fingerprint, kind, record_index, assessment_index, answered_at, person)
            VALUES (@scope, @key, @fingerprint, @kind, @record, @assessment, @at, @person)
            """,
            ("@scope", answered.Key.Scope),
            ("@key", answered.Key.Text),
            ("@fingerprint", answered.Fingerprint.ToBytes()),
            ("@kind", (long)answered.Kind),
            ("@record", answered.Record),
            ("@assessment", answered.Assessment),
            ("@at", answered.At.ToUnixTimeMilliseconds()),
            ("@person", answered.By)
        );
    }

    public void Owe(Notice notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        SqlStoredNotices.Owe(connection, notice);
    }

    public bool EndExport(string id, string turn, long rows, ContentHash digest) =>
        SqlStoredExports.End(connection, id, turn, rows, digest);

    public bool Settle(Notice notice)
    {
        ArgumentNullException.ThrowIfNull(notice);
        return SqlStoredNotices.Settle(connection, notice);
    }

    public bool Renew(long entry, string recipient) => SqlStoredNotices.Renew(connection, entry, recipient);

    public void DropAnswers(string pseudonym) =>
        _ = connection.Execute(
            """
            DELETE FROM answered_key
            WHERE person = @person OR record_index IN (SELECT entry_index FROM record_row WHERE person = @person)
            """,
            ("@person", pseudonym)
        );

    public IReadOnlyDictionary<long, string> Sites(string record) =>
        connection
            .Rows(
                $"SELECT {SqlHeldRows.RecordColumns} FROM record_row r WHERE r.record = @record",
                SqlHeldRows.Site,
                ("@record", record)
            )
            .OfType<(long Index, string Site)>()
            .ToDictionary(one => one.Index, one => one.Site);

    private static object?[] Digests(
        RecordRow record,
        IEnumerable<object?[]> units,
        IEnumerable<object?[]> findings,
        IEnumerable<object?[]> shown
    ) =>
        [
            SqlRowDigest.Of(record),
            record.IsNewest ? SqlRowDigest.Of(record with { IsNewest = false }) : null,
            SqlRowDigest.Of(units),
            SqlRowDigest.Of(findings),
            SqlRowDigest.Of(shown),
        ];

    // The record's own row last: the others are found by it.
    private void Remove(string condition, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        _ = connection.Execute($"DELETE FROM shown_row WHERE {condition}", values);
        _ = connection.Execute($"DELETE FROM finding_row WHERE {condition}", values);
        _ = connection.Execute($"DELETE FROM unit_row WHERE {condition}", values);
        _ = connection.Execute($"DELETE FROM record_row WHERE {condition}", values);
    }

    private void Insert(string table, string columns, IReadOnlyCollection<object?[]> rows)
    {
        foreach (var some in rows.Chunk(Together))
        {
            var statement = new StringBuilder($"INSERT INTO {table} ({columns}) VALUES ");
            var values = new List<(string Name, object? Value)>();
            foreach (var row in some)
            {
                _ = statement.Append(values.Count == 0 ? "(" : ", (");
                for (var column = 0; column < row.Length; column++)
                {
                    var name = string.Create(CultureInfo.InvariantCulture, $"@v{values.Count}");
                    _ = statement.Append(column == 0 ? "" : ", ").Append(name);
                    values.Add((name, row[column]));
                }

                _ = statement.Append(')');
            }

            _ = connection.Execute(statement.ToString(), [.. values]);
        }
    }
}
