using System.CommandLine;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules check</c>: everything that is wrong or odd in a folder of rules.</summary>
internal static class RulesCheckCommand
{
    public static Command Of(Session session)
    {
        var on = new Option<string?>("--on")
        {
            Description =
                "the day on which rules and texts are to be in force, such as 2026-03-01; left out: today",
            HelpName = "DAY",
        };
        var command = new Command(
            "check",
            "Tells everything wrong or odd in a folder of rules: 0 sound, 1 not."
        )
        {
            RulesInForce.Option,
            on,
        };
        command.SetAction(parsed =>
        {
            var day =
                GivenValue.Day(parsed, on) ?? DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime);
            return Run(CheckRules.Run(RulesInForce.FolderOf(parsed), day), session);
        });
        return command;
    }

    private static int Run(RulesChecked rules, Session session)
    {
        foreach (var remark in rules.Diagnostics)
        {
            session.Tell(remark.ToString());
        }

        session.Tell(
            $"{ReportWords.Counted(rules.Packs, "pack", "packs")}, {ReportWords.Counted(rules.Rules, "rule", "rules")}, "
                + $"{ReportWords.Counted(rules.Sheets, "limit sheet", "limit sheets")}, {ReportWords.Counted(rules.Cases, "case", "cases")}: "
                + (rules.IsSound ? "sound" : "not fit to judge by")
        );
        return rules.IsSound ? ExitCode.Good : ExitCode.NotGood;
    }
}
