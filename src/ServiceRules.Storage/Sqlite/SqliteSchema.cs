using System.Data.Common;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage.Sql;

namespace ServiceRules.Storage.Sqlite;

/// <summary>
/// What a database holds beside rows, against what the scripts make of an empty one. A table of another form, or a view or
/// trigger of others, would answer and keep something else than is asked of it.
/// </summary>
internal static class SqliteSchema
{
    private const string Journal = "SchemaVersions";

    /// <exception cref="LedgerStoreException">A table is missing or another, or something is there that is none of ours.</exception>
    public static void Hold(string path, DbConnection connection)
    {
        var shipped = Shipped();
        var found = Of(connection);
        var fault = found
            .Where(part => part.Name != Journal && !shipped.Contains(part))
            .Select(part => $"its {part.Kind} `{part.Name}` is none of a ledger of this version")
            .Concat(
                shipped
                    .Where(part => part.Kind == "table" && found.All(other => other.Name != part.Name))
                    .Select(part => $"its table `{part.Name}` is missing")
            )
            .FirstOrDefault();
        if (fault is not null)
        {
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"`{path}` is damaged, or is no ledger: {fault}"
            );
        }
    }

    /// <summary>What guards the rows, or finds them, and was taken away: each told.</summary>
    public static IEnumerable<string> Missing(DbConnection connection) =>
        Shipped().Except(Of(connection)).Select(part => $"its {part.Kind} `{part.Name}` is missing");

    private static HashSet<Part> Shipped()
    {
        using var empty = new SqliteConnection("Data Source=:memory:;Pooling=False");
        empty.Open();
        foreach (var script in SqliteMigrations.Scripts())
        {
            _ = empty.Execute(script);
        }

        return Of(empty);
    }

    private static HashSet<Part> Of(DbConnection connection) =>
        [
            .. connection.Rows(
                "SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'",
                row => new Part(row.Text(0), row.Text(1), row.Text(2))
            ),
        ];

    private sealed record Part(string Kind, string Name, string Sql);
}
