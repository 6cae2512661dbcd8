using System.CommandLine;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules</c>: what is done with the rules themselves.</summary>
internal static class RulesCommand
{
    public static Command Of(Session session) =>
        new(
            "rules",
            "Checks, tests, explains, compares and writes rule packs, limit sheets and the site's registers."
        )
        {
            RulesCheckCommand.Of(session),
            RulesTestCommand.Of(session),
            RulesExplainCommand.Of(session),
            RulesCompareCommand.Of(session),
            RulesFormatCommand.Of(session),
            RulesNewCommand.Of(session),
            RulesOrderCommand.Of(session),
            RulesWaiveCommand.Of(session),
            RulesClockCommand.Of(session),
            RulesSheetCommand.Of(session),
        };
}
