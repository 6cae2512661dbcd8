using System.CommandLine;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger export DIR</c>: the whole log as files that ordinary tools read.</summary>
internal static class LedgerExportCommand
{
    public static Command Of(Session session)
    {
        var folder = new Argument<DirectoryInfo>("DIR") { Description = "A folder that is new or empty." };
        var command = new Command(
            "export",
            "Writes entries, contents, checkpoints and key as plain files; no names of people behind pseudonyms."
        )
        {
            folder,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetRequiredValue(folder)));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, DirectoryInfo folder)
    {
        if (File.Exists(folder.FullName) || (folder.Exists && folder.EnumerateFileSystemInfos().Any()))
        {
            throw new InputException($"`{folder}` is there and not empty; accepted: a new or empty folder");
        }

        if (LedgerPlace.IsWithin(folder.FullName, LedgerPlace.FolderOf(parsed)))
        {
            throw new InputException(
                $"`{folder}` lies in the ledger's own folder; accepted: a folder outside, to hand on"
            );
        }

        using var ledger = LedgerInUse.ToRead(parsed, session);
        try
        {
            var (entries, contents) = ledger.Ledger.Read(log =>
                new ExportLedger(log, ledger.Ledger.Key).To(folder.FullName)
            );
            session.Tell($"{folder}: {entries} entries, {contents} contents");
            return ExitCode.Good;
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure)
                && failure is UnauthorizedAccessException or IOException and not LedgerStoreException
            )
        {
            throw new InputException($"`{folder}` cannot be written: {failure.Message}");
        }
    }
}
