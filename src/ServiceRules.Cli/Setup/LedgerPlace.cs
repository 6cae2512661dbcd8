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
                "Private folder of the ledger: its database and the key of the log. Made on first filing.",
            HelpName = "DIR",
        };

    public static Option<DirectoryInfo?> Checkpoints { get; } =
        new("--checkpoints")
        {
            Description =
                "Folder outside the ledger where signed checkpoints are kept, best on another disk. Default: DIR-checkpoints beside the ledger.",
            HelpName = "DIR",
        };

    /// <exception cref="InputException">No ledger was named.</exception>
    public static string FolderOf(ParseResult parsed) =>
        parsed.GetValue(Option)?.FullName
        ?? throw new InputException("no ledger is named; accepted: --ledger and the ledger's folder");

    public static CheckpointFolder ShelfOf(ParseResult parsed) =>
        new(parsed.GetValue(Checkpoints)?.FullName ?? CheckpointFolder.Beside(FolderOf(parsed)));

    /// <summary>The folder as it is, without holding it against its checkpoints.</summary>
    /// <exception cref="InputException">There is no ledger in it, or it is open to others.</exception>
    public static LedgerFolder Existing(ParseResult parsed)
    {
        var folder = FolderOf(parsed);
        return File.Exists(Path.Combine(folder, LedgerFolder.DatabaseName))
            ? Open(folder)
            : throw new InputException(
                $"there is no ledger in `{folder}`; accepted: a folder that something was filed in"
            );
    }

    /// <exception cref="InputException">It is open to others.</exception>
    public static LedgerFolder Open(string folder)
    {
        try
        {
            return LedgerFolder.OpenOrCreate(folder);
        }
        catch (LedgerStoreException refused) when (refused.Trouble is StoreTrouble.NotPrivate)
        {
            throw new InputException(refused.Message);
        }
    }
}
