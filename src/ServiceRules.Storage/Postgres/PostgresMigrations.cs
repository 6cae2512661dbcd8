using DbUp;
using DbUp.Postgresql;
using Npgsql;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage.Sql;

namespace ServiceRules.Storage.Postgres;

/// <summary>Brings a database up to date: every script once, in the order of their names, each whole or not at all.</summary>
internal static class PostgresMigrations
{
    private const string Folder = "Postgres/";

    /// <summary>A number that only this locks by: instances that start together take turns. It never changes.</summary>
    private const long TurnKey = 0x5E_72_1C_E5;

    public static void Run(NpgsqlDataSource source, string place)
    {
        using var turn = source.OpenConnection();
        _ = turn.Execute("SELECT pg_advisory_lock(@key)", ("@key", TurnKey));
        try
        {
            Upgrade(source, place);
        }
        finally
        {
            _ = turn.Execute("SELECT pg_advisory_unlock(@key)", ("@key", TurnKey));
        }
    }

    private static void Upgrade(NpgsqlDataSource source, string place)
    {
        var outcome = DeployChanges
            .To.PostgresqlDatabase(new PostgresqlConnectionManager(source))
            .WithScriptsEmbeddedInAssembly(
                typeof(PostgresMigrations).Assembly,
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

        throw outcome.Error is NpgsqlException failure
            ? PostgresTrouble.Of(failure, place)
            : new LedgerStoreException(
                StoreTrouble.Failed,
                $"{place} cannot be brought up to date: {outcome.Error.Message}",
                outcome.Error
            );
    }
}
