using ServiceRules.Application.Filed;

namespace ServiceRules.Cli.Setup;

/// <summary>Reads a file that somebody hands us: never more of it than the reader behind would accept.</summary>
internal static class InputFile
{
    /// <exception cref="InputException">There is no such file, or it cannot be read.</exception>
    public static byte[] ReadUpTo(string path, int limit)
    {
        if (Directory.Exists(path))
        {
            throw new InputException($"`{path}` is a folder; accepted: a file");
        }

        if (Path.GetFileName(path).StartsWith("--", StringComparison.Ordinal) && !File.Exists(path))
        {
            throw new InputException(
                $"`{Path.GetFileName(path)}` is no option here, and there is no such file; `--help` lists the options"
            );
        }

        try
        {
            if (!RegularFile.Is(path))
            {
                throw new InputException(
                    $"`{path}` is no regular file (a pipe or a device would be waited on); accepted: a file"
                );
            }

            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            var wanted = (int)Math.Min(stream.CanSeek ? stream.Length : limit + 1L, limit + 1L);
            var bytes = new byte[wanted];
            var count = stream.ReadAtLeast(bytes, wanted, throwOnEndOfStream: false);
            return count == wanted ? bytes : bytes[..count];
        }
        catch (Exception failure)
            when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new InputException($"`{path}` cannot be read: {failure.Message}");
        }
    }

    /// <summary>Refuses a place in a folder that is not there: a path mistyped should not become a new folder.</summary>
    /// <exception cref="InputException">There is no such folder.</exception>
    public static void CheckFolder(string path)
    {
        var file = new FileInfo(path);
        if (file.Directory is { Exists: false } folder)
        {
            throw new InputException(
                $"there is no folder `{folder}` to write `{file.Name}` to; accepted: a folder that is there"
            );
        }
    }

    /// <summary>
    /// Refuses to write over a file that is something else than what would be written there, and where there is no folder.
    /// </summary>
    /// <param name="isSuch">Whether the content is of the kind that would be written.</param>
    /// <param name="such">That kind, as in "is there and is no ...".</param>
    /// <exception cref="InputException">There is such a file, or no such folder.</exception>
    public static void CheckPlace(string path, int limit, Func<byte[], bool> isSuch, string such)
    {
        CheckFolder(path);
        if (Directory.Exists(path) || (File.Exists(path) && !isSuch(ReadUpTo(path, limit))))
        {
            throw new InputException(
                $"`{path}` is there and is no {such}; accepted: one to write over, or a new file"
            );
        }
    }

    /// <exception cref="InputException">It cannot be written.</exception>
    public static void Write(string path, byte[] content)
    {
        try
        {
            // Whole, or as it was; what is no file, such as the null device, cannot be replaced by one.
            if (RegularFile.Is(path))
            {
                DurableFile.Write(path, content);
            }
            else
            {
                File.WriteAllBytes(path, content);
            }
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure)
                && failure is IOException or UnauthorizedAccessException or ArgumentException
            )
        {
            throw new InputException($"`{path}` cannot be written: {failure.Message}");
        }
    }
}
