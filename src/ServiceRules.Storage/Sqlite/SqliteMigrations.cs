using DbUp;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sqlite;

/// <summary>Brings a file up to date: every script once, in the order of their names, each whole or not at all.</summary>
internal static class SqliteMigrations
{
    private const string Folder = "Sqlite/";
    private const string WorkFolder = "SqliteWork/";

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

    public static void Run(string path, string connectionString) => Run(path, connectionString, Folder);

    /// <summary>Brings the file of the work behind answers up to date.</summary>
    public static void RunWork(string path, string connectionString) =>
        Run(path, connectionString, WorkFolder);

    private static void Run(string path, string connectionString, string folder)
    {
        var outcome = DeployChanges
            .To.SqliteDatabase(connectionString)
            .WithScriptsEmbeddedInAssembly(
                typeof(SqliteMigrations).Assembly,
                name => name.StartsWith(folder, StringComparison.Ordinal)
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
