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
    private const int ToldMost = 100;

    private const string Mending =
        "`servicerules ledger mend --from COPY` puts contents back that are lost, and makes the rows of them.";

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
        var made = rows.Rebuild();
        session.Output.WriteLine($"The rows of {made.Entries} entries were made anew.");
        if (!made.Lost.IsEmpty)
        {
            session.Output.WriteLine($"Not those of {made.Lost.Length} versions: they stand as they were.");
            Tell(made.Lost.Take(ToldMost), session);
            if (made.Lost.Length > ToldMost)
            {
                session.Output.WriteLine($"  and {made.Lost.Length - ToldMost} more of the kind");
            }

            session.Output.WriteLine(Mending);
        }

        var told = Told([.. rows.Check().Except(made.Lost)], session);
        return made.Lost.IsEmpty ? told : ExitCode.NotGood;
    }

    private static int Told(ImmutableArray<LedgerFault> faults, Session session)
    {
        Tell(faults, session);
        var isLost = faults.Any(fault => fault.Code == LedgerFaultCode.ContentMissing);
        session.Output.WriteLine(
            faults.IsEmpty
                ? "The rows are what the log and its contents come to."
                : "The rows are not what the log and its contents come to; "
                    + (isLost ? Mending : "`servicerules ledger rows --rebuild` makes them anew.")
        );
        return faults.IsEmpty ? ExitCode.Good : ExitCode.NotGood;
    }

    private static void Tell(IEnumerable<LedgerFault> faults, Session session)
    {
        foreach (var fault in faults)
        {
            session.Screen.TextLine($"  FAULT  {fault.Code}: {fault}");
        }
    }
}
