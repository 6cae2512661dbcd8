using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Due;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Application.Working;
using ServiceRules.Evidence;
using ServiceRules.Storage.Working;

namespace ServiceRules.Storage.Sql;

/// <summary>
/// What all databases have in common. Each question is asked on a connection of its own, so that any number of threads may
/// ask while one files.
/// </summary>
public abstract class SqlLedgerStore : ILedgerStore, IDisposable
{
    private protected SqlLedgerStore()
    {
        Rows = new SqlStoredRows(this);
        Accounts = new SqlStoredAccounts(this);
        Notices = new SqlStoredNotices(this);
        Packs = new SqlStoredPacks(this);
        Waivers = new SqlStoredWaivers(this);

        SealedKeys = new SqlSealedKeys(this);
        Exports = new SqlStoredExports(this);
        WorkMarks = new SqlWorkMarks(this);
        Rejudgings = new SqlStoredRejudgings(this);
        Due = new SqlStoredDue(this);
    }

    public IRowReading Rows { get; }

    /// <summary>Who may come in. It stands in the same database, and in nothing that is told of the log.</summary>
    public IAccountReading Accounts { get; }

    /// <summary>Who is still to be told of what was filed.</summary>
    public INoticeTable Notices { get; }

    /// <summary>Which packs and sheets judge.</summary>
    public IRulesStore Packs { get; }

    public IWaiverReading Waivers { get; }

    /// <summary>What protects what browsers keep for the service.</summary>
    public ISealedKeyStore SealedKeys { get; }

    /// <summary>Lists that somebody wants as files.</summary>
    public IExportStore Exports { get; }

    /// <summary>How far the log was handed to the queue.</summary>
    public IWorkMarks WorkMarks { get; }

    /// <summary>What is to be judged again, and what came of it.</summary>
    public IRejudgingStore Rejudgings { get; }

    /// <summary>What falls due.</summary>
    public IDueStore Due { get; }

    public LedgerHead? Head => Ask(log => log.Head);

    public IEnumerable<StoredEntry> Entries(long from) => Each(log => log.Entries(from));

    public StoredEntry? Entry(long index) => Ask(log => log.Entry(index));

    public ImmutableArray<long> About(string subject) => Ask(log => log.About(subject));

    public ReadOnlyMemory<byte>? Content(ContentHash hash) => Ask(log => log.Content(hash));

    public IEnumerable<ContentHash> Contents() => Each(log => log.Contents());

    public IEnumerable<string> Checkpoints() => Each(log => log.Checkpoints());

    public string? PseudonymOf(string person) => Ask(log => log.PseudonymOf(person));

    public IEnumerable<NamedPerson> People() => Ask(log => log.People());

    public string? PersonBehind(string pseudonym) => Ask(log => log.PersonBehind(pseudonym));

    public abstract T Write<T>(Func<ILedgerWriting, T> work);

    public T Read<T>(Func<ILedgerReading, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return Read((log, _) => work(log));
    }

    public T Read<T>(Func<ILedgerReading, IRowReading, T> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return Guarded(() =>
        {
            using var connection = OpenReading();
            using var moment = BeginMoment(connection);
            return work(new SqlLedgerReading(connection), new SqlRowReading(connection));
        });
    }

    /// <summary>Runs a transaction that touches nothing of the log, so that its head is not locked where rows can be.</summary>
    internal abstract T WriteBeside<T>(Func<DbConnection, T> work);

    public abstract IReadOnlyList<string> Check();

    public abstract IReadOnlyList<string> CheckRows();

    public abstract void RenewRowIndexes();

    /// <summary>Where work behind answers is kept.</summary>
    /// <param name="folder">The private folder of the ledger.</param>
    internal abstract WorkPlace OpenWorkPlace(string folder);

    /// <summary>Copies the database as it is at one moment, whoever files meanwhile, to a file that is there and empty.</summary>
    /// <returns>The head of the copy.</returns>
    internal abstract LedgerHead? CopyTo(string file);

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Begins a transaction in which several questions see one moment, and that locks nobody out.</summary>
    private protected abstract DbTransaction BeginMoment(DbConnection reading);

    private protected abstract DbConnection OpenReading();

    private protected abstract LedgerStoreException Trouble(DbException failure);

    internal T OnConnection<T>(Func<DbConnection, T> ask) =>
        Guarded(() =>
        {
            using var connection = OpenReading();
            return ask(connection);
        });

    private protected T Guarded<T>(Func<T> ask)
    {
        try
        {
            return ask();
        }
        catch (DbException failure)
        {
            throw Trouble(failure);
        }
    }

    protected abstract void Dispose(bool isDisposing);

    private T Ask<T>(Func<SqlLedgerReading, T> question) =>
        OnConnection(connection => question(new SqlLedgerReading(connection)));

    private IEnumerable<T> Each<T>(Func<SqlLedgerReading, IEnumerable<T>> question)
    {
        using var connection = Guarded(OpenReading);
        using var each = question(new SqlLedgerReading(connection)).GetEnumerator();
        while (Guarded(each.MoveNext))
        {
            yield return each.Current;
        }
    }
}
