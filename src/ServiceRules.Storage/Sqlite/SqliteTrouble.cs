using System.Data.Common;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sqlite;

/// <summary>Result codes of SQLite as what they mean to the people of a shop.</summary>
internal static class SqliteTrouble
{
    private const int NoSuchTable = 1;
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CannotOpen = 14;
    private const int NoDatabase = 26;

    public static LedgerStoreException Of(DbException failure, string path)
    {
        var (trouble, words) = ((failure as SqliteException)?.SqliteErrorCode ?? 0) switch
        {
            Busy or Locked => (StoreTrouble.Busy, "is kept locked by another program"),
            Full => (StoreTrouble.Full, "cannot grow: the disk is full"),
            ReadOnly => (StoreTrouble.ReadOnly, "may not be written to"),
            Corrupt or NoDatabase or NoSuchTable => (StoreTrouble.Damaged, "is damaged, or is no ledger"),
            CannotOpen => (StoreTrouble.Failed, "cannot be opened"),
            _ => (StoreTrouble.Failed, "failed"),
        };
        return new(trouble, $"`{path}` {words}: {failure.Message}", failure);
    }
}
