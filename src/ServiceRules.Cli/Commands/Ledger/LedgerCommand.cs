using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger</c>: what was filed, and the proof of it.</summary>
internal static class LedgerCommand
{
    public static Command Of(Session session) =>
        new(
            "ledger",
            "Files records and what a site decides in a log that nobody can change unseen, and proves it."
        )
        {
            LedgerAddCommand.Of(session),
            LedgerShowCommand.Of(session),
            LedgerVerifyCommand.Of(session),
            LedgerRowsCommand.Of(session),
            LedgerProveCommand.Of(session),
            LedgerCheckpointCommand.Of(session),
            LedgerKeyCommand.Of(session),
            LedgerExportCommand.Of(session),
            LedgerForgetCommand.Of(session),
            LedgerBackupCommand.Of(session),
            LedgerRestoreCommand.Of(session),
            LedgerDrillCommand.Of(session),
            LedgerMendCommand.Of(session),
            LedgerGiveUpCommand.Of(session),
        };
}
