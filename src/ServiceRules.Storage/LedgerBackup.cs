using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage;

/// <summary>Copies of a ledger with its key, made while it is in use, and put back.</summary>
public static class LedgerBackup
{
    private const string Unfinished = ".unfinished";

    // What SQLite may leave beside a file that it was stopped in.
    private static readonly string[] Beside = ["", "-journal", "-wal", "-shm"];

    /// <summary>Copies the database as it is at one moment, and the key; on return both have reached the disk.</summary>
    /// <param name="ledger">The ledger, open here or by others too.</param>
    /// <param name="folder">A folder that is new or empty; it becomes private.</param>
    /// <returns>The head of the copy; null when nothing is filed.</returns>
    /// <exception cref="LedgerStoreException">It cannot be made; what can be removed of it is.</exception>
    public static LedgerHead? Make(LedgerFolder ledger, string folder)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        return Whole(
            folder,
            draft =>
            {
                DurableFile.New(draft, DurableFile.Private).Dispose();
                var head = ledger.CopyDatabase(draft);
                CopyKey(ledger.KeyPath, folder);
                return head;
            }
        );
    }

    /// <summary>Puts a copy where there is no ledger; whether it is the whole log is for its checkpoints to say.</summary>
    /// <param name="backup">The folder of the copy; it stays as it is.</param>
    /// <param name="folder">A folder that is new or empty; it becomes private.</param>
    /// <returns>Where it was put.</returns>
    /// <exception cref="LedgerStoreException">It cannot be read or put there; what can be removed of it is.</exception>
    public static string Restore(string backup, string folder) =>
        Whole(
            folder,
            draft =>
            {
                CopyDatabase(Path.Combine(backup, LedgerFolder.DatabaseName), draft);

                CopyKey(Path.Combine(backup, LedgerFolder.KeyName), folder);
                return folder;
            }
        );

    /// <summary>Whether a folder holds a whole copy.</summary>
    public static bool IsIn(string folder) =>
        File.Exists(Path.Combine(folder, LedgerFolder.DatabaseName))
        && File.Exists(Path.Combine(folder, LedgerFolder.KeyName));

    private static void Begin(string folder)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"`{folder}` is not empty; accepted: a new or empty folder"
            );
        }

        if (PrivateFolder.Make(folder) is { } open)
        {
            throw new LedgerStoreException(StoreTrouble.NotPrivate, open);
        }
    }

    private static void CopyKey(string from, string folder) =>
        _ = DurableFile.WriteNew(
            Path.Combine(folder, LedgerFolder.KeyName),
            Reading(from, () => File.ReadAllBytes(from)),
            DurableFile.Private
        );

    private static void CopyDatabase(string path, string draft)
    {
        using var from = Reading(path, () => File.OpenRead(path));
        using var to = DurableFile.New(draft, DurableFile.Private);
        var some = new byte[1 << 16];
        while (Reading(path, () => from.Read(some)) is var count and > 0)
        {
            to.Write(some, 0, count);
        }
    }

    private static T Reading<T>(string path, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception failure) when (failure is UnauthorizedAccessException or IOException)
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"`{path}` cannot be read: {failure.Message}",
                failure
            );
        }
    }

    // Under its own name only once it is whole: a copy that was broken off is none.
    private static void Finish(string draft)
    {
        using (var file = new FileStream(draft, FileMode.Open, FileAccess.ReadWrite))
        {
            file.Flush(flushToDisk: true);
        }

        var whole = draft[..^Unfinished.Length];
        File.Move(draft, whole);
        DurableFile.SyncAbove(whole);
    }

    private static T Whole<T>(string folder, Func<string, T> copy)
    {
        var isThere = Directory.Exists(folder);
        var draft = Path.Combine(folder, LedgerFolder.DatabaseName + Unfinished);
        try
        {
            Begin(folder);
            try
            {
                var copied = copy(draft);
                Finish(draft);
                return copied;
            }
            catch
            {
                Remove(folder, draft, isThere);
                throw;
            }
        }
        catch (Exception failure)
            when (failure is UnauthorizedAccessException or IOException and not LedgerStoreException)
        {
            throw new LedgerStoreException(
                DiskFull.Is(failure) ? StoreTrouble.Full : StoreTrouble.Failed,
                $"`{folder}` cannot be written: {failure.Message}",
                failure
            );
        }
    }

    // As far as it goes: why the copy failed is told, and not that something of it could not be removed.
    private static void Remove(string folder, string draft, bool isThere)
    {
        try
        {
            foreach (var end in Beside)
            {
                File.Delete(draft + end);
                File.Delete(draft[..^Unfinished.Length] + end);
            }

            File.Delete(Path.Combine(folder, LedgerFolder.KeyName));
            if (!isThere)
            {
                Directory.Delete(folder);
            }
        }
        catch (Exception failure) when (failure is UnauthorizedAccessException or IOException) { }
    }
}
