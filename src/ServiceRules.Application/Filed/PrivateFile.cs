namespace ServiceRules.Application.Filed;

/// <summary>Files that nobody but their owner may read; on Windows that is left to the folder.</summary>
public static class PrivateFile
{
    /// <summary>Whether nobody but its owner can read or write a file that is there.</summary>
    /// <param name="path">Where it is.</param>
    public static bool Is(string path) =>
        OperatingSystem.IsWindows() || (File.GetUnixFileMode(path) & ~DurableFile.Private) == 0;

    /// <summary>Why a file that is there is not private, or null.</summary>
    /// <param name="path">Where it is.</param>
    public static string? Fault(string path) =>
        Is(path) ? null : $"`{path}` can be read by others; make it private with chmod 600";
}
