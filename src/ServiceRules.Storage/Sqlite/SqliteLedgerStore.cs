using System.Collections.Immutable;
using System.Globalization;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sqlite;

/// <summary>
/// A log in one SQLite file, write-ahead with a full sync at each commit. That the settings are really in force is asked
/// of the database at each opening, not assumed.
/// </summary>
public sealed class SqliteLedgerStore : ILedgerStore, IDisposable
{
    private const long FullSync = 2;

    private const string Lost = "filings could be lost with the power";
    private const string Readable = "what was forgotten could still be read in the file";

    private readonly string path;
    private readonly SqliteConnection connection;
    private readonly SqliteLedgerReading reading;

    private SqliteLedgerStore(string path, SqliteConnection connection)
    {
        this.path = path;
        this.connection = connection;
        reading = new SqliteLedgerReading(connection);
    }

    internal SqliteConnection Connection => connection;

    public LedgerHead? Head => Guarded(() => reading.Head);

    /// <summary>Opens the file, made and brought up to date where needed. Only one process may be here at a time.</summary>
    /// <exception cref="LedgerStoreException">It cannot be used.</exception>
    public static SqliteLedgerStore Open(string path)
    {
        var connection = new SqliteConnection(
            // Pooled connections would keep the file open behind our back.
            new SqliteConnectionStringBuilder { DataSource = path, Pooling = false }.ConnectionString
        );
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

    public IEnumerable<StoredEntry> Entries(long from) => Guarded(reading.Entries(from));

    public StoredEntry? Entry(long index) => Guarded(() => reading.Entry(index));

    public ImmutableArray<long> About(string subject) => Guarded(() => reading.About(subject));

    public ReadOnlyMemory<byte>? Content(ContentHash hash) => Guarded(() => reading.Content(hash));

    public IEnumerable<ContentHash> Contents() => Guarded(reading.Contents());

    public IEnumerable<string> Checkpoints() => Guarded(reading.Checkpoints());

    public string? PseudonymOf(string person) => Guarded(() => reading.PseudonymOf(person));

    public IEnumerable<NamedPerson> People() => Guarded(reading.People());

    public string? PersonBehind(string pseudonym) => Guarded(() => reading.PersonBehind(pseudonym));

    public T Write<T>(Func<ILedgerWriting, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return Guarded(() =>
        {
            // Immediate: the file is locked before the head is read, so that no two fork the log.
            var writing = new SqliteLedgerWriting(connection);
            T outcome;
            using (var transaction = connection.BeginTransaction(deferred: false))
            {
                outcome = work(writing);
                transaction.Commit();
            }

            if (writing.HasRemoved)
            {
                ClearLog(connection);
            }

            return outcome;
        });
    }

    public T Read<T>(Func<ILedgerReading, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return Guarded(() =>
        {
            using var moment = connection.BeginTransaction(deferred: true);
            return work(reading);
        });
    }

    public IReadOnlyList<string> Check() =>
        Guarded(() =>
            (IReadOnlyList<string>)
                [
                    .. connection
                        .Rows("PRAGMA integrity_check", row => row.Text(0))
                        .Where(told => told != "ok"),
                    .. SqliteSchema.Missing(connection),
                ]
        );

    public void Dispose() => connection.Dispose();

    // What was removed is overwritten in the database alone; the write-ahead log keeps its pages as they were. While
    // others read, this clears nothing; then it is done at the next opening, or when the last of them closes.
    private static void ClearLog(SqliteConnection connection) =>
        _ = connection.Rows("PRAGMA wal_checkpoint(TRUNCATE)", row => row.Number(0)).Single();

    private static void Prepare(string path, SqliteConnection connection)
    {
        Demand(path, "journal_mode", connection.One<string>("PRAGMA journal_mode = WAL"), "wal", Lost);
        connection.Execute("PRAGMA synchronous = FULL");
        connection.Execute("PRAGMA secure_delete = ON");
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

    private T Guarded<T>(Func<T> ask)
    {
        try
        {
            return ask();
        }
        catch (SqliteException failure)
        {
            throw SqliteTrouble.Of(failure, path);
        }
    }

    private IEnumerable<T> Guarded<T>(IEnumerable<T> rows)
    {
        using var each = rows.GetEnumerator();
        while (Guarded(each.MoveNext))
        {
            yield return each.Current;
        }
    }
}
