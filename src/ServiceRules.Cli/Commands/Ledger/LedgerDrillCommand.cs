using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger drill BACKUP</c>: restores a copy into a folder that goes again, and verifies it there.</summary>
internal static class LedgerDrillCommand
{
    public static Command Of(Session session)
    {
        var backup = new Argument<DirectoryInfo>("BACKUP")
        {
            Description = "A folder that `ledger backup` wrote; it stays as it is.",
        };
        var command = new Command(
            "drill",
            "Restores a backup into a scratch folder and verifies it there, and with --ledger holds it against the log: 0 good, 1 not."
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
        var isCompared = parsed.GetValue(LedgerPlace.Option) is not null;
        using var log = isCompared ? LedgerPlace.ToRead(parsed, session) : null;
        List<ShelvedCheckpoint> outside =
            isCompared ? [.. LedgerPlace.ShelfOf(parsed).All()]
            : parsed.GetValue(LedgerPlace.Checkpoints) is { } shelf
                ? [.. new CheckpointFolder(shelf.FullName).All()]
            : [];
        using var scratch = new ScratchFolder("servicerules-drill-");
        _ = LedgerCopies.Write(() => LedgerBackup.Restore(backup, scratch.Folder));
        using var restored = LedgerPlace.Open(scratch.Folder);
        var tried = TryLedgerCopy.Try(
            restored.Store,
            restored.Signer.Key,
            outside,
            log?.Store,
            restored.Beside
        );
        LedgerCopies.Tell(session, backup, tried);
        return tried.IsSound ? ExitCode.Good : ExitCode.NotGood;
    }
}
