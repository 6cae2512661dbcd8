using System.Data.Common;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sql;

/// <summary>Statements with their values, each in one line.</summary>
internal static class SqlQueries
{
    public static int Execute(
        this DbConnection connection,
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        using var command = Command(connection, sql, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first column of the first row; null when there is no row.</summary>
    public static T? One<T>(
        this DbConnection connection,
        string sql,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
        where T : class
    {
        using var command = Command(connection, sql, values);
        return command.ExecuteScalar() as T;
    }

    /// <summary>The rows, all of them: not every database answers a second question while a first one is read.</summary>
    public static List<T> Rows<T>(
        this DbConnection connection,
        string sql,
        Func<DbDataReader, T> read,
        params ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        using var command = Command(connection, sql, values);
        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(read(rows));
        }

        return found;
    }

    public static byte[] Bytes(this DbDataReader row, int column) => Value<byte[]>(row, column);

    public static byte[]? BytesOrNone(this DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : Value<byte[]>(row, column);

    public static string Text(this DbDataReader row, int column) => Value<string>(row, column);

    public static string? TextOrNone(this DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : Value<string>(row, column);

    public static long Number(this DbDataReader row, int column) => Value<long>(row, column);

    public static long? NumberOrNone(this DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : Value<long>(row, column);

    // The tables are strict: another type means that a page was damaged.
    private static T Value<T>(DbDataReader row, int column) =>
        row.GetValue(column) is T value
            ? value
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                "the database is damaged: a value is of another type than its column"
            );

#pragma warning disable CA2100 // Every statement is made of constants of this project; values are only ever parameters.
    private static DbCommand Command(
        DbConnection connection,
        string sql,
        ReadOnlySpan<(string Name, object? Value)> values
    )
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = value ?? DBNull.Value;
            _ = command.Parameters.Add(parameter);
        }

        return command;
    }
#pragma warning restore CA2100
}
