namespace ServiceRules.Application.Filed;

/// <summary>Folders that nobody but their owner may look into; on Windows that is left to the folder above.</summary>
public static class PrivateFolder
{
    private const UnixFileMode Mode =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode WrittenByOthers = UnixFileMode.GroupWrite | UnixFileMode.OtherWrite;

    private const UnixFileMode OfOthers =
        WrittenByOthers
        | UnixFileMode.GroupRead
        | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead
        | UnixFileMode.OtherExecute;

    /// <summary>
    /// Makes the folder where there is none, and makes one private that is there, empty, and could be written to by its
    /// owner alone. One that others may write to is theirs as well, and is left as it is. Tells why it cannot be used, or
    /// null.
    /// </summary>
    /// <param name="folder">Where it shall be.</param>
    public static string? Make(string folder)
    {
        Begin(folder);
        if (OperatingSystem.IsWindows() || Fault(folder) is not { } fault)
        {
            return null;
        }

        if (
            (File.GetUnixFileMode(folder) & WrittenByOthers) != 0
            || Directory.EnumerateFileSystemEntries(folder).Any()
        )
        {
            return fault;
        }

        File.SetUnixFileMode(folder, Mode);
        return null;
    }

    /// <summary>Makes the folder where there is none; one that is there stays as it is.</summary>
    /// <param name="folder">Where it shall be.</param>
    public static void Begin(string folder)
    {
        if (Directory.Exists(folder))
        {
            return;
        }

        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, Mode);
        }

        DurableFile.SyncAbove(folder);
    }

    /// <summary>Why a folder that is there is not private, or null.</summary>
    /// <param name="folder">Where it is.</param>
    public static string? Fault(string folder) =>
        OperatingSystem.IsWindows() || (File.GetUnixFileMode(folder) & OfOthers) == 0
            ? null
            : $"`{folder}` can be looked into by others; make it private with chmod 700";
}
