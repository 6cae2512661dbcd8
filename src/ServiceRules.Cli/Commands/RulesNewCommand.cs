using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new</c>: what is written into the folder of rules without writing JSON.</summary>
internal static class RulesNewCommand
{
    public static Command Of(Session session) =>
        new(
            "new",
            "Makes a limit sheet or a rule with its cases, from options or from answers at the terminal, and checks it before it is written."
        )
        {
            RulesNewSheetCommand.Of(session),
            RulesNewRuleCommand.Of(session),
        };
}
