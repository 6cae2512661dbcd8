using DbUp;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sqlite;

/// <summary>Brings a file up to date: every script once, in the order of their names, each whole or not at all.</summary>
internal static class SqliteMigrations
{
    private const string Folder = "Sqlite/";

    /// <summary>The scripts in the order in which they run.</summary>
    public static IEnumerable<string> Scripts()
    {
        var assembly = typeof(SqliteMigrations).Assembly;
        foreach (
            var name in assembly
                .GetManifestResourceNames()
                .Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
        )
        {
            using var script = new StreamReader(assembly.GetManifestResourceStream(name)!);
            yield return script.ReadToEnd();
        }
    }

    public static void Run(string path, string connectionString)
    {
        var outcome = DeployChanges
            .To.SqliteDatabase(connectionString)
            .WithScriptsEmbeddedInAssembly(
                typeof(SqliteMigrations).Assembly,
                name => name.StartsWith(Folder, StringComparison.Ordinal)
            )
            .WithTransactionPerScript()
            .WithVariablesDisabled()
            .LogToNowhere()
            .Build()
            .PerformUpgrade();
        if (outcome.Successful)
        {
            return;
        }

        throw outcome.Error is SqliteException failure
            ? SqliteTrouble.Of(failure, path)
            : new LedgerStoreException(
                StoreTrouble.Failed,
                $"`{path}` cannot be brought up to date: {outcome.Error.Message}",
                outcome.Error
            );
    }
}
