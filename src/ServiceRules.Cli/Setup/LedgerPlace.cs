using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Setup;

/// <summary>Which ledger a command works on, and where its checkpoints are kept.</summary>
internal static class LedgerPlace
{
    public static Option<DirectoryInfo?> Option { get; } =
        new("--ledger")
        {
            Description =
                "Private folder of the ledger: its database and the key of the log; or the folder of a service. Made on first filing.",
            HelpName = "DIR",
        };

    public static Option<DirectoryInfo?> Checkpoints { get; } =
        new("--checkpoints")
        {
            Description =
                "Folder outside the ledger where signed checkpoints are kept, best on another disk. Default: DIR-checkpoints beside the ledger, or beside the folder of the service.",
            HelpName = "DIR",
        };

    public static Option<bool> AcceptMissing { get; } =
        new("--accept-missing-checkpoints")
        {
            Description =
                "Go on although no checkpoint of the ledger is kept outside it: you answer for it that it was not put back.",
        };

    public static Option<bool> BringBack { get; } =
        new("--bring-back")
        {
            Description =
                "File again what `ledger forget --with-contents` removed: you answer for it that the person may be named here again.",
        };

    /// <exception cref="InputException">No ledger was named, or what is there is no folder.</exception>
    public static string FolderOf(ParseResult parsed) =>
        parsed.GetValue(Option)?.FullName is { } folder
            ? Checked(Option.Name, ServiceCopies.LedgerIn(folder) ?? folder)
            : throw new InputException("no ledger is named; accepted: --ledger and the ledger's folder");

    /// <exception cref="InputException">The place lies in the ledger itself, or is no folder.</exception>
    public static CheckpointFolder ShelfOf(ParseResult parsed)
    {
        var ledger = FolderOf(parsed);
        var place = Checked(
            Checkpoints.Name,
            parsed.GetValue(Checkpoints)?.FullName ?? CheckpointFolder.Beside(ServiceOf(parsed) ?? ledger)
        );
        return IsWithin(place, ledger)
            ? throw new InputException(
                $"--checkpoints: `{place}` lies in the ledger's own folder and would be put back with it; accepted: a folder outside"
            )
            : new CheckpointFolder(place);
    }

    /// <summary>The folder of the service that the ledger belongs to; null where it belongs to none.</summary>
    public static string? ServiceOf(ParseResult parsed) =>
        parsed.GetValue(Option)?.FullName is { } given && ServiceCopies.LedgerIn(given) is not null
            ? given
            : ServiceCopies.ServiceOf(FolderOf(parsed));

    /// <summary>Whether a place is a folder or lies in it, links followed.</summary>
    public static bool IsWithin(string place, string folder)
    {
        var path = Path.GetRelativePath(RealPath.Of(folder), RealPath.Of(place));
        return !Path.IsPathRooted(path) && path.Split(Path.DirectorySeparatorChar)[0] != "..";
    }

    // A link to nothing is refused too: what would be made is not what the link was to lead to.
    private static string Checked(string option, string folder) =>
        Directory.Exists(folder) || (!File.Exists(folder) && new FileInfo(folder).LinkTarget is null)
            ? folder
            : throw new InputException(
                $"{option}: `{folder}` is a file, or a link to nothing; accepted: a folder, or nothing there yet"
            );

    /// <summary>The folder as it is, without holding it against its checkpoints.</summary>
    /// <exception cref="InputException">There is no ledger in it, or it is open to others.</exception>
    public static LedgerFolder Existing(ParseResult parsed) => Open(BegunFolderOf(parsed));

    /// <summary>The same for reading alone, so that it may lie where nothing can be written.</summary>
    /// <exception cref="InputException">There is no ledger in it, or it is open to others.</exception>
    public static LedgerFolder ToRead(ParseResult parsed, Session session)
    {
        var place = BegunFolderOf(parsed);
        var folder = Opened(() => LedgerFolder.OpenToRead(place));
        if (folder.IsOfCopy)
        {
            session.Error.WriteLine(
                $"`{place}` cannot be written to: it is read from a copy of its database, which goes with this command."
            );
        }

        return folder;
    }

    private static string BegunFolderOf(ParseResult parsed)
    {
        var folder = FolderOf(parsed);
        return LedgerFolder.IsBegun(folder)
            ? folder
            : throw new InputException(
                $"there is no ledger in `{folder}`; accepted: a folder that something was filed in"
            );
    }

    /// <exception cref="InputException">It is open to others, or damaged.</exception>
    public static LedgerFolder Open(string folder) => Opened(() => LedgerFolder.OpenOrCreate(folder));

    private static LedgerFolder Opened(Func<LedgerFolder> open)
    {
        try
        {
            return open();
        }
        catch (LedgerStoreException refused)
            when (refused.Trouble is StoreTrouble.NotPrivate or StoreTrouble.Damaged)
        {
            throw new InputException(refused.Message);
        }
    }
}
