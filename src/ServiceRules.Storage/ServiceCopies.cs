using ServiceRules.Application.Filed;

namespace ServiceRules.Storage;

/// <summary>
/// What the folder of a service holds besides its ledger, and is copied and put back with it: the keys that sign reports, of today
/// and of before, and whom the site names to be told or to vouch for people.
/// </summary>
public static class ServiceCopies
{
    public const string LedgerName = "ledger";
    public const string KeysName = "keys";
    public const string NoticesName = "notices.json";
    public const string ProvidersName = "sign-in.json";

    private static readonly string[] Settings = [NoticesName, ProvidersName];

    /// <summary>The ledger's folder in the folder of a service; null where a folder is not that of a service.</summary>
    public static string? LedgerIn(string folder) =>
        !LedgerFolder.IsBegun(folder) && LedgerFolder.IsBegun(LedgerOf(folder)) ? LedgerOf(folder) : null;

    /// <summary>The folder of the service that a ledger belongs to, as its checkpoints show; null where it belongs to none.</summary>
    public static string? ServiceOf(string ledger)
    {
        var place = Path.TrimEndingDirectorySeparator(ledger);
        return
            Path.GetFileName(place) == LedgerName
            && Path.GetDirectoryName(place) is { } service
            && Directory.Exists(CheckpointFolder.Beside(service))
            && !Directory.Exists(CheckpointFolder.Beside(place))
            ? service
            : null;
    }

    /// <summary>Where the ledger lies in the folder of a service.</summary>
    public static string LedgerOf(string service) => Path.Combine(service, LedgerName);

    /// <summary>Whether a copy is that of a service.</summary>
    public static bool IsOfService(string backup) => Directory.Exists(Path.Combine(backup, KeysName));

    /// <summary>Copies what is there; on return it has reached the disk.</summary>
    /// <param name="from">The folder of a service, or a copy of one.</param>
    /// <param name="to">A copy, or the folder of a service: private, and there already.</param>
    /// <exception cref="IOException">It cannot be read or written.</exception>
    public static void Copy(string from, string to)
    {
        foreach (var name in Settings.Where(name => File.Exists(Path.Combine(from, name))))
        {
            CopyFile(from, to, name);
        }

        CopyFolder(Path.Combine(from, KeysName), Path.Combine(to, KeysName));
    }

    // A copy of a service that issued no report yet has the folder as well: by it a copy is known.
    private static void CopyFolder(string from, string to)
    {
        PrivateFolder.Begin(to);
        if (!Directory.Exists(from))
        {
            return;
        }

        foreach (var file in Directory.EnumerateFiles(from).Order(StringComparer.Ordinal))
        {
            CopyFile(from, to, Path.GetFileName(file));
        }

        foreach (var folder in Directory.EnumerateDirectories(from).Order(StringComparer.Ordinal))
        {
            CopyFolder(folder, Path.Combine(to, Path.GetFileName(folder)));
        }
    }

    private static void CopyFile(string from, string to, string name) =>
        DurableFile.Write(
            Path.Combine(to, name),
            File.ReadAllBytes(Path.Combine(from, name)),
            DurableFile.Private
        );
}
