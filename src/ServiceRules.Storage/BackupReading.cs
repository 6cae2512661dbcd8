using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage.Sqlite;

namespace ServiceRules.Storage;

/// <summary>
/// The database of a backup, opened to be read from a copy of it, which goes when it is closed: opening brings tables up to date, and
/// the backup stays as it is. The key of the log is not copied.
/// </summary>
public sealed class BackupReading : IDisposable
{
    private readonly DatabaseCopy copy;
    private readonly SqliteLedgerStore store;

    private BackupReading(DatabaseCopy copy, SqliteLedgerStore store) =>
        (this.copy, this.store) = (copy, store);

    public ILedgerReading Log => store;

    /// <param name="folder">The folder of the backup.</param>
    /// <exception cref="LedgerStoreException">It cannot be read.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "Both pass to the object given back.")]
    public static BackupReading Open(string folder)
    {
        var copy = DatabaseCopy.Of(Path.Combine(folder, LedgerFolder.DatabaseName));
        try
        {
            return new(copy, SqliteLedgerStore.Open(copy.File));
        }
        catch
        {
            copy.Dispose();
            throw;
        }
    }

    public void Dispose()
    {
        store.Dispose();
        copy.Dispose();
    }
}
