using System.CommandLine;
using ServiceRules.Cli.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger backup DIR</c>: a copy of the database and the key, made while others file.</summary>
internal static class LedgerBackupCommand
{
    public static Command Of(Session session)
    {
        var folder = new Argument<DirectoryInfo>("DIR") { Description = "A folder that is new or empty." };
        var command = new Command(
            "backup",
            "Copies the ledger as it is at one moment, key included, while others file, and of a service the keys of its reports and its settings too: keep it as private as the ledger."
        )
        {
            folder,
            LedgerPlace.Option,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetRequiredValue(folder).FullName));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, string folder)
    {
        if (LedgerPlace.IsWithin(folder, LedgerPlace.FolderOf(parsed)))
        {
            throw new InputException(
                $"`{folder}` lies in the ledger's own folder and would be lost with it; accepted: a folder outside, best on another disk"
            );
        }

        using var ledger = LedgerPlace.ToRead(parsed, session);
        var head = LedgerCopies.Write(() => LedgerBackup.Make(ledger, folder));
        session.Tell($"{folder}: {LedgerCopies.Words(head)}");
        if (LedgerPlace.ServiceOf(parsed) is { } service)
        {
            LedgerCopies.WriteFiles(() => ServiceCopies.Copy(service, folder));
            session.Tell($"{folder}: with the keys that sign reports, and the settings of the service");
        }

        return ExitCode.Good;
    }
}
