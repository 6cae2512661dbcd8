using System.Runtime.InteropServices;
using System.Text;

namespace ServiceRules.Application.Filed;

/// <summary>Writes a file so that it is there whole, or not at all, even where the power goes off right afterwards.</summary>
public static class DurableFile
{
    /// <summary>Only its owner reads and writes it.</summary>
    public const UnixFileMode Private = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Everybody reads it.</summary>
    public const UnixFileMode Public = Private | UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    private const int ReadOnly = 0;

    /// <summary>Writes a file, in place of one that may be there; on return it has reached the disk.</summary>
    /// <param name="path">Where it shall be; its folder exists.</param>
    /// <param name="content">All of it.</param>
    /// <param name="mode">Who may read it, where the system knows such modes.</param>
    public static void Write(string path, ReadOnlySpan<byte> content, UnixFileMode mode = Public)
    {
        var draft = Draft(path, content, mode);
        try
        {
            File.Move(draft, path, overwrite: true);
        }
        finally
        {
            File.Delete(draft);
        }

        SyncAbove(path);
    }

    /// <summary>Writes a file, or leaves the one that is there already; tells whether it was written.</summary>
    /// <param name="path">Where it shall be; its folder exists.</param>
    /// <param name="content">All of it.</param>
    /// <param name="mode">Who may read it, where the system knows such modes.</param>
    public static bool WriteNew(string path, ReadOnlySpan<byte> content, UnixFileMode mode = Public)
    {
        var draft = Draft(path, content, mode);
        try
        {
            File.Move(draft, path, overwrite: false);
        }
        catch (IOException) when (File.Exists(path))
        {
            return false;
        }
        finally
        {
            File.Delete(draft);
        }

        SyncAbove(path);
        return true;
    }

    /// <summary>
    /// Begins a file that is not there yet. Whoever writes to it makes it reach the disk: what is begun so need not be whole.
    /// </summary>
    /// <param name="path">Where it shall be; its folder exists.</param>
    /// <param name="mode">Who may read it, where the system knows such modes.</param>
    public static FileStream New(string path, UnixFileMode mode)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = mode;
        }

        return new FileStream(path, options);
    }

    /// <summary>Makes names that were added to a folder, or changed in it, reach the disk.</summary>
    /// <param name="folder">The folder.</param>
    public static void SyncFolder(string folder)
    {
        // Windows has no such call, and its file systems write names ahead.
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var handle = NativeMethods.Open([.. Encoding.UTF8.GetBytes(folder), 0], ReadOnly);
        if (handle < 0)
        {
            throw Failure("opened", folder);
        }

        try
        {
            if (NativeMethods.Sync(handle) != 0)
            {
                throw Failure("synced", folder);
            }
        }
        finally
        {
            _ = NativeMethods.Close(handle);
        }
    }

    /// <summary>Makes the name of a file or folder reach the disk: it has to last as long as what it names.</summary>
    /// <param name="path">What was made.</param>
    public static void SyncAbove(string path)
    {
        if (
            Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(path))) is
            { Length: > 0 } above
        )
        {
            SyncFolder(above);
        }
    }

    // The content beside the path, on the disk.
    private static string Draft(string path, ReadOnlySpan<byte> content, UnixFileMode mode)
    {
        var draft = $"{path}.{Path.GetRandomFileName()}";
        try
        {
            using var stream = New(draft, mode);
            stream.Write(content);
            stream.Flush(flushToDisk: true);
            return draft;
        }
        catch
        {
            File.Delete(draft);
            throw;
        }
    }

    private static IOException Failure(string what, string folder) =>
        new($"the folder `{folder}` cannot be {what}: {Marshal.GetLastPInvokeErrorMessage()}");

    // The base class library opens no folder.
    private static class NativeMethods
    {
        [DllImport("libc", EntryPoint = "open", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Open(byte[] path, int flags);

        [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Sync(int handle);

        [DllImport("libc", EntryPoint = "close", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Close(int handle);
    }
}
