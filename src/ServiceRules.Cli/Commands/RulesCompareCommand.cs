using System.CommandLine;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules compare OLD NEW FILE|DIR...</c>: which past verdicts a change of the rules would turn, and why.</summary>
internal static class RulesCompareCommand
{
    private const string Json = "json";

    private static readonly Argument<DirectoryInfo> Old = new("OLD")
    {
        Description = "The folder of rules as it is.",
    };

    private static readonly Argument<DirectoryInfo> New = new("NEW")
    {
        Description = "The folder of rules as it would be.",
    };

    public static Command Of(Session session)
    {
        var all = new Option<bool>("--all")
        {
            Description = "Show also rules that are in and newly asked, or were in and no longer asked.",
        };
        var format = new Option<string>("--format")
        {
            Description =
                "text, or json: a line for what is said differently, one for each record that comes out otherwise, one for the totals.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "compare",
            "Judges records by two folders of rules and shows each verdict that turns, with its cause: 0 none does, 1 at least one does, 2 unreadable input."
        )
        {
            Old,
            New,
            RecordPaths.Argument,
            all,
            format,
        };
        command.SetAction(parsed =>
            parsed.GetValue(format) == Json
                ? Run(parsed, session, new CompareJsonLines(session))
                : Run(parsed, session, new ComparePrint(session.Screen, parsed.GetValue(all)))
        );
        return command;
    }

    private static int Run(ParseResult parsed, Session session, ICompareTelling telling)
    {
        var (old, now) = (parsed.GetRequiredValue(Old), parsed.GetRequiredValue(New));
        var compare = new CompareRules(Sound(old), Sound(now), new PdfReportReader([]));
        var records = compare.Gather(parsed.GetRequiredValue(RecordPaths.Argument));
        RecordPaths.Tell(session.Error, records.Files.Problems);
        if (records.Paths.IsEmpty)
        {
            session.Error.WriteLine("there is no readable record among these files");
            return ExitCode.Unusable;
        }

        telling.Heading(old.ToString(), now.ToString(), compare.Changes);
        List<FiledProblem> lost = [];
        var totals = compare.Compare(records, telling.Record, lost.Add);
        RecordPaths.Tell(session.Error, lost);
        var files = records.Files with { Problems = [.. records.Files.Problems, .. lost] };
        telling.Totals(totals, files);
        return !files.Problems.IsEmpty ? ExitCode.Unusable
            : totals.Changed > 0 ? ExitCode.NotGood
            : ExitCode.Good;
    }

    private static LoadedRules Sound(DirectoryInfo folder) =>
        folder.Exists
            ? RulesInForce.Sound(RuleFolder.Load(folder.FullName))
            : throw new InputException($"there is no folder `{folder}`; accepted: a folder of rules");
}
