using ServiceRules.Application.Filed;

namespace ServiceRules.Storage;

/// <summary>Opens a file that one process at a time may have open, and waits for its turn.</summary>
internal static class ExclusiveFile
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <summary>That another process has it open: on Linux, on macOS, and the two of Windows. Waiting helps with nothing else.</summary>
    private static readonly int[] InUse = [11, 35, unchecked((int)0x80070020), unchecked((int)0x80070021)];

    /// <exception cref="IOException">It cannot be opened, or its turn did not come.</exception>
    public static FileStream Open(string path, UnixFileMode mode = DurableFile.Public) =>
        InTurn(() => new FileStream(path, Options(mode)));

    /// <exception cref="IOException">It cannot be read, or its turn did not come.</exception>
    public static byte[] Read(string path) =>
        InTurn(() =>
        {
            // As long as it says it is: a device would never end.
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            var bytes = new byte[file.Length];
            return bytes[..file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false)];
        });

    // Whatever the umask is: others may read it, and nobody else writes to it.
    private static FileStreamOptions Options(UnixFileMode mode)
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.OpenOrCreate,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = mode;
        }

        return options;
    }

    private static T InTurn<T>(Func<T> open)
    {
        var waited = TimeSpan.Zero;
        while (true)
        {
            try
            {
                return open();
            }
            catch (IOException failure) when (waited < Patience && InUse.Contains(failure.HResult))
            {
                Thread.Sleep(Pause);
                waited += Pause;
            }
        }
    }
}
