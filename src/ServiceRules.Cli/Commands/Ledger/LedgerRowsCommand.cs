using System.Collections.Immutable;
using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger rows</c>: what lists and searches are made of, held against the log, or made anew from it.</summary>
internal static class LedgerRowsCommand
{
    private static readonly Option<bool> Rebuild = new("--rebuild")
    {
        Description = "Make every row anew from the log and its contents. Others may file and ask meanwhile.",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "rows",
            "Holds what lists and searches are made of against the log, or makes it anew: 0 it is what the log comes to, 1 not, 2 unreadable."
        )
        {
            Rebuild,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        using var ledger = parsed.GetValue(Rebuild)
            ? LedgerInUse.Existing(parsed, session)
            : LedgerInUse.ToRead(parsed, session);
        var rows = new RebuildRows(ledger.Ledger);
        try
        {
            return parsed.GetValue(Rebuild) ? MadeAnew(rows, session) : Told(rows.Check(), session);
        }
        catch (LedgerStoreException failure) when (failure.Trouble is StoreTrouble.Damaged)
        {
            throw new InputException($"the ledger cannot be read to its end: {failure.Message}");
        }
    }

    private static int MadeAnew(RebuildRows rows, Session session)
    {
        if (rows.Lost() is { IsEmpty: false } lost)
        {
            Tell(lost, session);
            session.Output.WriteLine(
                "Nothing was made anew: these would be missing from lists as if they never were. Put a backup back, or the contents."
            );
            return ExitCode.NotGood;
        }

        var entries = rows.Rebuild();
        session.Output.WriteLine($"The rows of {entries} entries were made anew.");
        return Told(rows.Check(), session);
    }

    private static int Told(ImmutableArray<LedgerFault> faults, Session session)
    {
        Tell(faults, session);
        session.Output.WriteLine(
            faults.IsEmpty
                ? "The rows are what the log and its contents come to."
                : "The rows are not what the log and its contents come to; `servicerules ledger rows --rebuild` makes them anew."
        );
        return faults.IsEmpty ? ExitCode.Good : ExitCode.NotGood;
    }

    private static void Tell(ImmutableArray<LedgerFault> faults, Session session)
    {
        foreach (var fault in faults)
        {
            session.Screen.TextLine($"  FAULT  {fault.Code}: {fault}");
        }
    }
}
