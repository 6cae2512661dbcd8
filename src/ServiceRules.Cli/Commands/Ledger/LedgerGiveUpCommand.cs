using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger give-up ID</c>: what is lost of a record counts as removed on purpose.</summary>
internal static class LedgerGiveUpCommand
{
    public static Command Of(Session session)
    {
        var record = new Argument<string>("ID") { Description = "The record." };
        var command = new Command(
            "give-up",
            "Gives up contents of a record that are lost and that no copy has, and says so in the log: 0 given up, 1 none is lost or a hold keeps it, 2. Needs --by and --reason. Cannot be undone."
        )
        {
            record,
        }.TakingPersonAndLedger();
        command.SetAction(parsed =>
        {
            var id = parsed.GetRequiredValue(record);
            using var ledger = LedgerInUse.Existing(parsed, session);
            var correction = AnsweredFor.By(parsed, "giving up what is lost", ledger);
            var code = FilingPrint.Write(
                session,
                id,
                id,
                new GiveUpLost(ledger.Ledger).GiveUp(id, correction)
            );
            if (code == ExitCode.Good)
            {
                session.Tell(
                    "Other jobs are judged without it from now on: a lock or a defect that only it told of is known to nobody here. "
                        + "Look at the machine before it is used."
                );
            }

            return code;
        });
        return command;
    }
}
