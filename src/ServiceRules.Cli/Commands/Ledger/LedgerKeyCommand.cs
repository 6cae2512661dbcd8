using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger key</c>: the public key that the log's checkpoints are checked with.</summary>
internal static class LedgerKeyCommand
{
    public static Command Of(Session session)
    {
        var note = new Option<bool>("--note")
        {
            Description = "As one line for programs that read signed notes: name, id, key. Default: PEM.",
        };
        var command = new Command(
            "key",
            "Prints the public key of the log, for whoever is to check its checkpoints."
        )
        {
            note,
            LedgerPlace.Option,
        };
        command.SetAction(parsed =>
        {
            using var folder = LedgerPlace.ToRead(parsed, session);
            session.Output.Write(
                parsed.GetValue(note) ? folder.Signer.Key + "\n" : folder.Signer.Key.ToPem()
            );
            return ExitCode.Good;
        });
        return command;
    }
}
