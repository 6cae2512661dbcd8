namespace ServiceRules.Storage;

/// <summary>Opens a file that one process at a time may have open, and waits for its turn.</summary>
internal static class ExclusiveFile
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <exception cref="IOException">It cannot be opened, or its turn did not come.</exception>
    public static FileStream Open(string path) =>
        InTurn(path, () => new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));

    /// <exception cref="IOException">It cannot be read, or its turn did not come.</exception>
    public static byte[] Read(string path) => InTurn(path, () => File.ReadAllBytes(path));

    private static T InTurn<T>(string path, Func<T> open)
    {
        var waited = TimeSpan.Zero;
        while (true)
        {
            try
            {
                return open();
            }
            catch (IOException) when (waited < Patience && File.Exists(path))
            {
                Thread.Sleep(Pause);
                waited += Pause;
            }
        }
    }
}
