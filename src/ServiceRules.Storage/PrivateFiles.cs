using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage;

/// <summary>Folders and files that nobody but their owner may look into.</summary>
internal static class PrivateFiles
{
    private const UnixFileMode FolderMode =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode FileMode0600 = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <exception cref="LedgerStoreException">It is there, is in use, and others may look into it.</exception>
    public static void Folder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
            return;
        }

        if (!Directory.Exists(folder))
        {
            Directory.CreateDirectory(folder, FolderMode);
            SyncAbove(folder);
        }

        if ((File.GetUnixFileMode(folder) & ~FolderMode) == 0)
        {
            return;
        }

        if (Directory.EnumerateFileSystemEntries(folder).Any())
        {
            throw new LedgerStoreException(
                StoreTrouble.NotPrivate,
                $"`{folder}` can be looked into by others; make it private with chmod 700"
            );
        }

        File.SetUnixFileMode(folder, FolderMode);
    }

    /// <summary>Makes an empty file if there is none.</summary>
    public static void Touch(string path)
    {
        if (!File.Exists(path))
        {
            using (new FileStream(path, Options(FileMode.OpenOrCreate)))
            {
                // Only its name is wanted.
            }

            SyncAbove(path);
        }
    }

    /// <summary>Writes a file whole and durably, or not at all. A file that is there already stays.</summary>
    public static void WriteNew(string path, string text)
    {
        var draft = $"{path}.{Path.GetRandomFileName()}";
        try
        {
            using (var file = new FileStream(draft, Options(FileMode.CreateNew)))
            {
                file.Write(System.Text.Encoding.UTF8.GetBytes(text));
                file.Flush(flushToDisk: true);
            }

            File.Move(draft, path, overwrite: false);
            SyncAbove(path);
        }
        catch (IOException) when (File.Exists(path))
        {
            // Another process was first: its file counts.
        }
        finally
        {
            File.Delete(draft);
        }
    }

    /// <exception cref="LedgerStoreException">Others may read it.</exception>
    public static string Read(string path)
    {
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & ~FileMode0600) != 0)
        {
            throw new LedgerStoreException(
                StoreTrouble.NotPrivate,
                $"`{path}` can be read by others; make it private with chmod 600"
            );
        }

        return File.ReadAllText(path);
    }

    // A new name has to last as long as what it names.
    private static void SyncAbove(string path)
    {
        if (
            Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(path))) is
            { Length: > 0 } above
        )
        {
            DurableFile.SyncFolder(above);
        }
    }

    private static FileStreamOptions Options(FileMode mode)
    {
        var options = new FileStreamOptions { Mode = mode, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = FileMode0600;
        }

        return options;
    }
}
