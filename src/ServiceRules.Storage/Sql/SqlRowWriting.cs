using System.Data.Common;
using System.Globalization;
using System.Text;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Storage.Sql;

/// <summary>Rows changed in an open transaction.</summary>
internal sealed class SqlRowWriting(DbConnection connection) : SqlRowReading(connection), IRowWriting
{
    /// <summary>Rows of one statement: beyond it the number of parameters of a statement would be the limit.</summary>
    private const int Together = 100;

    private readonly DbConnection connection = connection;

    public void Put(RecordRows rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Remove("entry_index = @index", ("@index", rows.Record.Index));
        Insert(
            "record_row",
            SqlRows.RecordColumns.Replace("r.", "", StringComparison.Ordinal),
            [SqlRows.Values(rows.Record)]
        );
        Insert("unit_row", "entry_index, ordinal, unit, disposition", [.. rows.Units.Select(SqlRows.Values)]);
        Insert(
            "finding_row",
            "entry_index, " + SqlRows.FindingColumns.Replace("f.", "", StringComparison.Ordinal),
            [.. rows.Findings.Select(SqlRows.Values)]
        );
    }

    public void Supersede(string record, long newest) =>
        _ = connection.Execute(
            "UPDATE record_row SET newest = 0 WHERE record = @record AND entry_index <> @newest AND newest = 1",
            ("@record", record),
            ("@newest", newest)
        );

    public void Drop(string record) =>
        Remove(
            "entry_index IN (SELECT entry_index FROM record_row WHERE record = @record)",
            ("@record", record)
        );

    public void Clear() => Remove("entry_index >= @first", ("@first", 0L));

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
            INSERT INTO answered_key (scope, key, fingerprint, kind, record_index, assessment_index, answered_at)
            VALUES (@scope, @key, @fingerprint, @kind, @record, @assessment, @at)
            """,
            ("@scope", answered.Key.Scope),
            ("@key", answered.Key.Text),
            ("@fingerprint", answered.Fingerprint.ToBytes()),
            ("@kind", (long)answered.Kind),
            ("@record", answered.Record),
            ("@assessment", answered.Assessment),
            ("@at", answered.At.ToUnixTimeMilliseconds())
        );
    }

    // The record's own row last: the others are found by it.
    private void Remove(string condition, (string Name, object? Value) value)
    {
        _ = connection.Execute($"DELETE FROM finding_row WHERE {condition}", value);
        _ = connection.Execute($"DELETE FROM unit_row WHERE {condition}", value);
        _ = connection.Execute($"DELETE FROM record_row WHERE {condition}", value);
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
