namespace ServiceRules.Application.Filed;

/// <summary>Whether a path leads to a file, and not to a pipe or device that would be waited on, perhaps for ever.</summary>
public static class RegularFile
{
    /// <summary>
    /// Asks without waiting. What is not there counts as a file: whoever opens it tells so.
    /// </summary>
    /// <param name="path">Where it is.</param>
    public static bool Is(string path)
    {
        var file = new FileInfo(path);
        file = file.LinkTarget is null
            ? file
            : file.ResolveLinkTarget(returnFinalTarget: true) as FileInfo ?? file;
        if (!file.Exists || file.Length > 0)
        {
            return true;
        }

        // No length: an empty file, a pipe or a device. To open it for writing as well waits for nobody, and only
        // in a file can be sought.
        try
        {
            using var stream = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
            return stream.CanSeek;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
