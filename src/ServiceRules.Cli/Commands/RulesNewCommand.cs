using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new</c>: what is written into the folder of rules without writing JSON.</summary>
internal static class RulesNewCommand
{
    public static Command Of(Session session) =>
        new(
            "new",
            "Makes the folder of a site, or in one a limit sheet, a rule with its cases, a machine, an instrument, a person, a lock or a procedure, and checks it before it is written."
        )
        {
            RulesNewSiteCommand.Of(session),
            RulesNewPersonCommand.Of(session),
            RulesNewMachineCommand.Of(session),
            RulesNewProcedureCommand.Of(session),
            RulesNewLockCommand.Of(session),
            RulesNewInstrumentCommand.Of(session),
            RulesNewSheetCommand.Of(session),
            RulesNewRuleCommand.Of(session),
        };
}
