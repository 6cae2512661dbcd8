using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sqlite;

/// <summary>Statements with their values, each in one line.</summary>
internal static class SqliteQueries
{
    public static int Execute(
        this SqliteConnection connection,
        string sql,
        params (string Name, object Value)[] values
    )
    {
        using var command = Command(connection, sql, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first column of the first row; null when there is no row.</summary>
    public static T? One<T>(
        this SqliteConnection connection,
        string sql,
        params (string Name, object Value)[] values
    )
        where T : class
    {
        using var command = Command(connection, sql, values);
        return command.ExecuteScalar() as T;
    }

    /// <summary>The rows as they come; the statement stays open while they are read.</summary>
    public static IEnumerable<T> Rows<T>(
        this SqliteConnection connection,
        string sql,
        Func<SqliteDataReader, T> read,
        params (string Name, object Value)[] values
    )
    {
        using var command = Command(connection, sql, values);
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            yield return read(rows);
        }
    }

    public static byte[] Bytes(this SqliteDataReader row, int column) => Value<byte[]>(row, column);

    public static string Text(this SqliteDataReader row, int column) => Value<string>(row, column);

    public static long Number(this SqliteDataReader row, int column) => Value<long>(row, column);

    // The tables are strict: another type means that a page was damaged.
    private static T Value<T>(SqliteDataReader row, int column) =>
        row.GetValue(column) is T value
            ? value
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                "the database is damaged: a value is of another type than its column"
            );

#pragma warning disable CA2100 // Every statement is a constant of this folder; values are only ever parameters.
    private static SqliteCommand Command(
        SqliteConnection connection,
        string sql,
        (string Name, object Value)[] values
    )
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }

        return command;
    }
#pragma warning restore CA2100
}
