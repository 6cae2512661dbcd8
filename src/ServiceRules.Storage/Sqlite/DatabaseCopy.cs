using Microsoft.Data.Sqlite;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Sqlite;

/// <summary>
/// A copy of a database whose folder cannot be written to, in a private folder of its own. SQLite writes beside what it reads, so
/// that nothing there can be read in place; the copy is brought up to date as any other.
/// </summary>
internal sealed class DatabaseCopy : IDisposable
{
    private const int CannotOpen = 14;
    private const int Times = 3;

    // That a medium takes nothing, on Linux and macOS, and on Windows.
    private static readonly int[] TakesNothing = [30, unchecked((int)0x80070013)];

    // What was filed last may stand beside the database alone. What the two share in memory is made anew.
    private static readonly string[] Parts = ["", "-wal"];

    private readonly ScratchFolder scratch = new("servicerules-read-");

    private DatabaseCopy(string name) => File = Path.Combine(scratch.Folder, name);

    /// <summary>The copy.</summary>
    public string File { get; }

    /// <summary>Whether opening failed since the folder cannot be written to.</summary>
    public static bool IsNeededAfter(LedgerStoreException failure) =>
        failure.Trouble is StoreTrouble.ReadOnly
        || failure.InnerException
            is UnauthorizedAccessException
                or SqliteException { SqliteErrorCode: CannotOpen }
        || (failure.InnerException is IOException refused && TakesNothing.Contains(refused.HResult));

    /// <param name="database">The file.</param>
    /// <exception cref="LedgerStoreException">It cannot be read, or is written to meanwhile.</exception>
    public static DatabaseCopy Of(string database)
    {
        var copy = new DatabaseCopy(Path.GetFileName(database));
        try
        {
            copy.Fill(database);
            return copy;
        }
        catch (Exception failure)
        {
            copy.Dispose();
            if (failure is UnauthorizedAccessException or IOException and not LedgerStoreException)
            {
                throw new LedgerStoreException(
                    DiskFull.Is(failure) ? StoreTrouble.Full : StoreTrouble.Failed,
                    $"`{database}` cannot be copied to be read: {failure.Message}",
                    failure
                );
            }

            throw;
        }
    }

    public void Dispose() => scratch.Dispose();

    // Whoever looks through a folder that is closed to them alone may see it while others write.
    private void Fill(string database)
    {
        for (var time = 0; time < Times; time++)
        {
            // A part that is gone from the database since would be played into what is newer than it.
            foreach (var tried in Directory.GetFiles(scratch.Folder))
            {
                System.IO.File.Delete(tried);
            }

            var before = Seen(database);
            foreach (var part in Parts.Where(part => System.IO.File.Exists(database + part)))
            {
                using var from = new FileStream(
                    database + part,
                    FileMode.Open,
                    FileAccess.Read,
                    FileShare.ReadWrite
                );
                using var to = DurableFile.New(File + part, DurableFile.Private);
                from.CopyTo(to);
            }

            if (Seen(database).SequenceEqual(before))
            {
                return;
            }
        }

        throw new LedgerStoreException(StoreTrouble.Busy, $"`{database}` is written to meanwhile");
    }

    private static List<(bool, long, DateTime)> Seen(string database) =>
        [
            .. Parts
                .Select(part => new FileInfo(database + part))
                .Select(file => (file.Exists, file.Exists ? file.Length : 0, file.LastWriteTimeUtc)),
        ];
}
