using System.CommandLine;
using ServiceRules.Cli.Setup;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger checkpoint</c>: the log's signed word for how far it has grown.</summary>
internal static class LedgerCheckpointCommand
{
    private static readonly Option<long?> From = new("--growth-from")
    {
        Description =
            "Instead: the proof that the log only grew since it had this many entries, for whoever holds that checkpoint.",
        HelpName = "SIZE",
    };

    private static readonly Option<FileInfo?> Output = new("--output", "-o")
    {
        Description = "Write it here. Default: standard output.",
        HelpName = "FILE",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "checkpoint",
            "Prints the newest signed checkpoint, to mail, print or keep where nobody can change it."
        )
        {
            From,
            Output,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        LogTextPlace.Check(parsed.GetValue(Output));
        using var ledger = LedgerInUse.ToRead(parsed, session);
        if (ledger.Ledger.Head is not { } head)
        {
            throw new InputException("nothing was filed yet, so there is no checkpoint");
        }

        var text = head.Note;
        if (parsed.GetValue(From) is { } from)
        {
            text =
                from >= 0 && from <= head.Size
                    ? new GrowthProof(from, ledger.Ledger.ProveGrowth(from)).ToString()
                    : throw new InputException(
                        $"--growth-from: the log never had {from} entries; accepted: 0 to {head.Size}"
                    );
        }

        if (parsed.GetValue(Output) is { } output)
        {
            InputFile.Write(output.FullName, System.Text.Encoding.UTF8.GetBytes(text));
        }
        else
        {
            session.Output.Write(text);
        }

        return ExitCode.Good;
    }
}
