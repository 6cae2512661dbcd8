using System.CommandLine;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger forget PERSON</c>: removes who is behind a pseudonym; the log itself stays whole.</summary>
internal static class LedgerForgetCommand
{
    public static Command Of(Session session)
    {
        var person = new Argument<string>("PERSON") { Description = "Who is forgotten." };
        var contents = new Option<bool>("--with-contents")
        {
            Description =
                "Also remove every record, assessment, context and report that names the person. Cannot be undone.",
        };
        var command = new Command(
            "forget",
            "Forgets who is behind a pseudonym, and says so in the log. Needs --by and --reason."
        )
        {
            person,
            contents,
        }.TakingPersonAndLedger();
        command.SetAction(parsed =>
        {
            var name = GivenPerson.Checked("PERSON", parsed.GetRequiredValue(person));
            using var ledger = LedgerInUse.Existing(parsed, session);
            var correction = AnsweredFor.By(parsed, "forgetting", ledger);
            var outcome = new ForgetPerson(ledger.Ledger).Forget(
                name,
                correction,
                parsed.GetValue(contents),
                AccountAct.Machine
            );
            var code = FilingPrint.Write(session, name, name, outcome);
            var left = ForgetPerson.CountNaming(ledger.Ledger.Log, name);
            if (code == ExitCode.Good && left > 0)
            {
                session.Tell(
                    $"{left} kept contents still name `{name}`; --with-contents removes them. Exports, reports and copies "
                        + "that were handed out are beyond this ledger."
                );
            }

            return code;
        });
        return command;
    }
}
