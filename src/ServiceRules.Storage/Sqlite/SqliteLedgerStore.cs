using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Storage.Sql;
using ServiceRules.Storage.Working;

namespace ServiceRules.Storage.Sqlite;

/// <summary>
/// A log in one SQLite file, write-ahead with a full sync at each commit. That the settings are really in force is asked
/// of the database at each opening, not assumed.
/// </summary>
public sealed class SqliteLedgerStore : SqlLedgerStore
{
    private const long FullSync = 2;

    // How long a lock of another program is waited for: less than whoever waits for an answer does.
    private const int HeldSeconds = 10;

    private const string WorkName = "work.db";

    private const string Lost = "filings could be lost with the power";
    private const string Readable = "what was forgotten could still be read in the file";

    private readonly string path;
    private readonly SqliteConnection connection;
    private readonly Lock writing = new();

    private SqliteLedgerStore(string path, SqliteConnection connection)
    {
        this.path = path;
        this.connection = connection;
    }

    /// <summary>The one connection that is written on.</summary>
    internal SqliteConnection Connection => connection;

    private protected override DbTransaction BeginMoment(DbConnection reading) =>
        // Deferred: it locks nobody out.
        ((SqliteConnection)reading).BeginTransaction(deferred: true);

    /// <summary>Opens the file, made and brought up to date where needed. Only one process may be here at a time.</summary>
    /// <exception cref="LedgerStoreException">It cannot be used.</exception>
    public static SqliteLedgerStore Open(string path)
    {
        var connection = Unopened(path);
        try
        {
            SqliteMigrations.Run(path, connection.ConnectionString);
            connection.Open();
            SqliteSchema.Hold(path, connection);
            Prepare(path, connection);
            return new SqliteLedgerStore(path, connection);
        }
        catch (SqliteException failure)
        {
            connection.Dispose();
            throw SqliteTrouble.Of(failure, path);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    public override T Write<T>(Func<ILedgerWriting, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        lock (writing)
        {
            return Guarded(() =>
            {
                // Immediate: the file is locked before the head is read, so that no two fork the log.
                var open = new SqlLedgerWriting(connection, Trouble);
                T outcome;
                using (var transaction = connection.BeginTransaction(deferred: false))
                {
                    outcome = work(open);
                    AtItsEnd(() => transaction.Commit());
                }

                if (open.HasRemoved)
                {
                    AtItsEnd(() => ClearLog(connection));
                }

                return outcome;
            });
        }
    }

    internal override T WriteBeside<T>(Func<DbConnection, T> work)
    {
        lock (writing)
        {
            return Guarded(() =>
            {
                using var transaction = connection.BeginTransaction(deferred: false);
                var outcome = work(connection);
                AtItsEnd(() => transaction.Commit());
                return outcome;
            });
        }
    }

    // The pages may have reached the disk although the system failed on the way.
    private void AtItsEnd(Action step)
    {
        try
        {
            step();
        }
        catch (SqliteException failure) when (Trouble(failure) is { Trouble: StoreTrouble.Failed } failed)
        {
            throw new LedgerStoreException(StoreTrouble.Gone, failed.Message, failure);
        }
    }

    public override IReadOnlyList<string> Check() =>
        OnConnection(reading =>
            (IReadOnlyList<string>)
                [
                    .. reading.Rows("PRAGMA integrity_check", row => row.Text(0)).Where(told => told != "ok"),
                    .. SqliteSchema.Missing(reading),
                ]
        );

    // An index that leads nowhere would leave a row out of a list as if it never was.
    public override IReadOnlyList<string> CheckRows() =>
        OnConnection(reading =>
            (IReadOnlyList<string>)
                [
                    .. RowTable
                        .All.SelectMany(table =>
                            reading.Rows(
                                $"PRAGMA integrity_check({table})",
                                row => $"`{table}`: {row.Text(0)}"
                            )
                        )
                        .Where(told => !told.EndsWith(": ok", StringComparison.Ordinal)),
                ]
        );

    public override void RenewRowIndexes() =>
        _ = WriteBeside(opened =>
        {
            foreach (var table in RowTable.All)
            {
                _ = opened.Execute($"REINDEX {table}");
            }

            return true;
        });

    // A file of its own: nobody who files waits for its locks, and the log is copied without it.
    internal override WorkPlace OpenWorkPlace(string folder)
    {
        var file = Path.Combine(folder, WorkName);
        try
        {
            if (!File.Exists(file))
            {
                _ = DurableFile.WriteNew(file, [], DurableFile.Private);
            }

            using var made = Unopened(file);
            SqliteMigrations.RunWork(file, made.ConnectionString);
            made.Open();
            Demand(file, "journal_mode", made.One<string>("PRAGMA journal_mode = WAL"), "wal", Lost);
            return new(SqliteFactory.Instance, made.ConnectionString, false);
        }
        catch (SqliteException failure)
        {
            throw SqliteTrouble.Of(failure, file);
        }
    }

    internal override LedgerHead? CopyTo(string file) =>
        OnConnection(reading =>
        {
            using var copy = Unopened(file);
            copy.Open();
            ((SqliteConnection)reading).BackupDatabase(copy);
            // One file, with nothing beside it that could be left behind.
            _ = copy.One<string>("PRAGMA journal_mode = DELETE");
            return new SqlLedgerReading(copy).Head;
        });

    private protected override DbConnection OpenReading()
    {
        var reading = Unopened(path);
        try
        {
            reading.Open();
            _ = reading.Execute("PRAGMA query_only = ON");
            return reading;
        }
        catch
        {
            reading.Dispose();
            throw;
        }
    }

    private protected override LedgerStoreException Trouble(DbException failure) =>
        SqliteTrouble.Of(failure, path);

    protected override void Dispose(bool isDisposing)
    {
        if (isDisposing)
        {
            connection.Dispose();
        }
    }

    // Pooled connections would keep the file open behind our back.
    private static SqliteConnection Unopened(string path) =>
        new(
            new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Pooling = false,
                DefaultTimeout = HeldSeconds,
            }.ConnectionString
        );

    // What was removed is overwritten in the database alone; the write-ahead log keeps its pages as they were. While
    // others read, this clears nothing; then it is done at the next opening, or when the last of them closes.
    private static void ClearLog(SqliteConnection connection) =>
        _ = connection.Rows("PRAGMA wal_checkpoint(TRUNCATE)", row => row.Number(0)).Single();

    private static void Prepare(string path, SqliteConnection connection)
    {
        Demand(path, "journal_mode", connection.One<string>("PRAGMA journal_mode = WAL"), "wal", Lost);
        _ = connection.Execute("PRAGMA synchronous = FULL");
        _ = connection.Execute("PRAGMA secure_delete = ON");
        Demand(path, "synchronous", Number(connection, "PRAGMA synchronous"), Text(FullSync), Lost);
        Demand(path, "secure_delete", Number(connection, "PRAGMA secure_delete"), Text(1), Readable);
        ClearLog(connection);
    }

    private static string Number(SqliteConnection connection, string pragma) =>
        Text(connection.Rows(pragma, row => row.Number(0)).Single());

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static void Demand(string path, string setting, string? found, string wanted, string otherwise)
    {
        if (found != wanted)
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"`{path}`: the database stays at {setting} `{found}`; needed: `{wanted}`, or {otherwise}"
            );
        }
    }
}
