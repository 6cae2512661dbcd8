namespace ServiceRules.Application.Filed;

/// <summary>Folders that nobody but their owner may look into; on Windows that is left to the folder above.</summary>
public static class PrivateFolder
{
    private const UnixFileMode Mode =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode OfOthers =
        UnixFileMode.GroupRead
        | UnixFileMode.GroupWrite
        | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead
        | UnixFileMode.OtherWrite
        | UnixFileMode.OtherExecute;

    /// <summary>
    /// Makes the folder where there is none, and makes one private that is there and empty. Tells why it cannot be used,
    /// or null.
    /// </summary>
    /// <param name="folder">Where it shall be.</param>
    public static string? Make(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
            return null;
        }

        if (!Directory.Exists(folder))
        {
            Directory.CreateDirectory(folder, Mode);
            DurableFile.SyncFolder(Path.GetDirectoryName(Path.GetFullPath(folder))!);
        }

        if (Fault(folder) is { } fault)
        {
            if (Directory.EnumerateFileSystemEntries(folder).Any())
            {
                return fault;
            }

            File.SetUnixFileMode(folder, Mode);
        }

        return null;
    }

    /// <summary>Why a folder that is there is not private, or null.</summary>
    /// <param name="folder">Where it is.</param>
    public static string? Fault(string folder) =>
        OperatingSystem.IsWindows() || (File.GetUnixFileMode(folder) & OfOthers) == 0
            ? null
            : $"`{folder}` can be looked into by others; make it private with chmod 700";
}
