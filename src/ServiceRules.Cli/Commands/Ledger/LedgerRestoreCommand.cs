using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger restore BACKUP</c>: puts a copy where there is no ledger, and tells what it holds.</summary>
internal static class LedgerRestoreCommand
{
    public static Command Of(Session session)
    {
        var backup = new Argument<DirectoryInfo>("BACKUP")
        {
            Description = "A folder that `ledger backup` wrote; it stays as it is.",
        };
        var command = new Command(
            "restore",
            "Puts a backup into a new folder, that of a service as the folder of a service: 0 it is the whole log that the checkpoints speak of, 1 entries are missing or it is damaged."
        )
        {
            backup,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetRequiredValue(backup).FullName));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, string backup)
    {
        LedgerCopies.Check(backup);
        var (place, shelf) = (LedgerPlace.FolderOf(parsed), LedgerPlace.ShelfOf(parsed));
        if (ServiceCopies.IsOfService(backup))
        {
            var service = place;
            place = ServiceCopies.LedgerOf(service);
            shelf = parsed.GetValue(LedgerPlace.Checkpoints) is null
                ? new CheckpointFolder(CheckpointFolder.Beside(service))
                : shelf;
            LedgerCopies.BeginService(service);
            _ = LedgerCopies.Write(() => LedgerBackup.Restore(backup, place));
            LedgerCopies.WriteFiles(() => ServiceCopies.Copy(backup, service));
        }
        else
        {
            _ = LedgerCopies.Write(() => LedgerBackup.Restore(backup, place));
        }

        using var restored = LedgerPlace.Open(place);
        var tried = TryLedgerCopy.Try(
            restored.Store,
            restored.Signer.Key,
            [.. shelf.All()],
            null,
            restored.Beside
        );
        LedgerCopies.Tell(session, place, tried);
        if (tried.Missing == 0)
        {
            return tried.IsSound ? ExitCode.Good : ExitCode.NotGood;
        }

        session.Output.WriteLine(
            "  nothing is filed in it while these checkpoints are known; what is left is read with an empty folder for --checkpoints and "
                + "--accept-missing-checkpoints"
        );
        return ExitCode.NotGood;
    }
}
