using System.Data;
using System.Data.Common;
using Npgsql;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage.Sql;
using ServiceRules.Storage.Working;

namespace ServiceRules.Storage.Postgres;

/// <summary>
/// A log in one PostgreSQL database, which any number of instances may have open: whoever files has locked the row of the
/// head before reading it. That a commit is on the disk is asked of the server at each opening, not assumed.
/// </summary>
public sealed class PostgresLedgerStore : SqlLedgerStore
{
    // A commit is synced whatever the default of the server is; nobody waits for ever for the head. The address may say otherwise.
    private const string Session = "-c synchronous_commit=on -c lock_timeout=30s";

    private readonly NpgsqlDataSource source;
    private readonly string place;
    private readonly string address;

    private PostgresLedgerStore(NpgsqlDataSource source, string place, string address)
    {
        this.address = address;
        this.source = source;
        this.place = place;
    }

    /// <summary>Opens the database, brought up to date where needed.</summary>
    /// <param name="address">The connection string.</param>
    /// <exception cref="LedgerStoreException">It cannot be used.</exception>
    public static PostgresLedgerStore Open(string address)
    {
        var given = Read(address);
        // What would be told of it holds no password.
        var place = $"the database `{given.Database}` at `{given.Host}`";
        given.Options = string.Join(' ', [Session, given.Options]).Trim();
        given.ApplicationName ??= "servicerules";
        var source = NpgsqlDataSource.Create(given);
        try
        {
            DemandAll(source, place);
            PostgresMigrations.Run(source, place);
            return new(source, place, given.ConnectionString);
        }
        catch (NpgsqlException failure)
        {
            source.Dispose();
            throw PostgresTrouble.Of(failure, place);
        }
        catch
        {
            source.Dispose();
            throw;
        }
    }

    public override T Write<T>(Func<ILedgerWriting, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return Guarded(() =>
        {
            using var connection = source.OpenConnection();
            // Each statement sees what was committed before it, and the first one waits until it may go on alone.
            using var transaction = connection.BeginTransaction(IsolationLevel.ReadCommitted);
            var outcome = Worked(connection, work);
            Commit(transaction);
            return outcome;
        });
    }

    internal override T WriteBeside<T>(Func<DbConnection, T> work) =>
        Guarded(() =>
        {
            using var connection = source.OpenConnection();
            using var transaction = connection.BeginTransaction(IsolationLevel.ReadCommitted);
            var outcome = work(connection);
            Commit(transaction);
            return outcome;
        });

    public override IReadOnlyList<string> Check() =>
        OnConnection(reading => (IReadOnlyList<string>)[.. PostgresSchema.Missing(reading)]);

    // The server looks after its own pages.
    public override IReadOnlyList<string> CheckRows() => [];

    // It removes rows without looking them up in an index.
    public override void RenewRowIndexes() { }

    internal override WorkPlace OpenWorkPlace(string folder) => new(NpgsqlFactory.Instance, address, true);

    internal override LedgerHead? CopyTo(string file) =>
        throw new LedgerStoreException(
            StoreTrouble.Failed,
            $"{place} is copied by its own programs; accepted: pg_dump, and a copy of the log's key"
        );

    private protected override DbTransaction BeginMoment(DbConnection reading) =>
        reading.BeginTransaction(IsolationLevel.RepeatableRead);

    private protected override DbConnection OpenReading() => source.OpenConnection();

    private protected override LedgerStoreException Trouble(DbException failure) =>
        PostgresTrouble.Of(failure, place);

    protected override void Dispose(bool isDisposing)
    {
        if (isDisposing)
        {
            source.Dispose();
        }
    }

    private T Worked<T>(NpgsqlConnection connection, Func<ILedgerWriting, T> work)
    {
        try
        {
            _ = connection.Execute("SELECT size FROM head WHERE one = 1 FOR UPDATE");
            return work(new SqlLedgerWriting(connection, Trouble));
        }
        catch (InvalidOperationException lost) when (connection.State is not ConnectionState.Open)
        {
            throw new LedgerStoreException(StoreTrouble.Gone, $"{place} was cut off: {lost.Message}", lost);
        }
    }

    // Whether a commit that was not answered was done, or only its answer lost, nobody can tell.
    private void Commit(NpgsqlTransaction transaction)
    {
        try
        {
            transaction.Commit();
        }
        catch (Exception failure) when (failure is DbException or InvalidOperationException)
        {
            throw new LedgerStoreException(
                StoreTrouble.Gone,
                $"{place} did not say that it was done: {failure.Message}",
                failure
            );
        }
    }

    private static NpgsqlConnectionStringBuilder Read(string address)
    {
        try
        {
            return new NpgsqlConnectionStringBuilder(address);
        }
        catch (Exception wrong) when (wrong is ArgumentException or FormatException)
        {
            // Its message may repeat a value, and so a password.
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                "the address of the database is no connection string; accepted: like `Host=db;Database=ledger;Username=servicerules`"
            );
        }
    }

    // On a session with the options of every other one: the address may have switched something off.
    private static void DemandAll(NpgsqlDataSource source, string place)
    {
        const string lost = "filings could be lost with the power";
        using var connection = source.OpenConnection();
        Demand(connection, place, "fsync", found => found == "on", "`on`", lost);
        Demand(connection, place, "full_page_writes", found => found == "on", "`on`", lost);
        Demand(connection, place, "synchronous_commit", found => found != "off", "`on`", lost);
        Demand(
            connection,
            place,
            "server_encoding",
            found => found == "UTF8",
            "`UTF8`",
            "not every name could be kept"
        );
    }

    private static void Demand(
        NpgsqlConnection connection,
        string place,
        string setting,
        Func<string?, bool> isFit,
        string needed,
        string otherwise
    )
    {
        if (connection.One<string>($"SHOW {setting}") is var found && !isFit(found))
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"{place}: {setting} is `{found}`; needed: {needed}, or {otherwise}"
            );
        }
    }
}
