using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.SafeWork;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Commands;

/// <summary><c>safe-work FILE... -o OUT.pdf</c>: what records show of safe work, as a signed report.</summary>
internal static class SafeWorkCommand
{
    private static readonly Option<string?> From = new("--from")
    {
        Description = "First day of the period. Default: that of the earliest record.",
        HelpName = "DAY",
    };

    private static readonly Option<string?> Until = new("--until")
    {
        Description = "Last day of the period. Default: that of the latest record.",
        HelpName = "DAY",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "safe-work",
            "Writes the signed safe-work report: of one record when it is given one file, else of a period."
        )
        {
            RecordPaths.Argument,
            From,
            Until,
        };
        foreach (var option in ReportIssuing.Options)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var paths = parsed.GetRequiredValue(RecordPaths.Argument);
        var (from, until) = (GivenValue.Day(parsed, From), GivenValue.Day(parsed, Until));
        if (until < from)
        {
            throw new InputException("--until: this day is before --from; accepted: that day or a later one");
        }

        if (paths.Length == 1 && (from ?? until) is null && !Directory.Exists(paths[0]))
        {
            return OfRecord(parsed, session, new FileInfo(paths[0]));
        }

        return OfPeriod(parsed, session, paths, from, until);
    }

    private static int OfRecord(ParseResult parsed, Session session, FileInfo file) =>
        new ReportIssuing(parsed, session).OfRecord(
            file,
            () => Judged(parsed, session, file),
            (assessed, signer, at, authority, proofs) =>
                SafeWorkReport.Write(assessed, ReportTerms.Default, signer, at, authority, proofs),
            assessed => SafeWorkReport.TitleOf(assessed.Record.Id.Text),
            assessed =>
                $"signed safe-work report of {assessed.Record.Id}, {Word(SafeWorkFindings.Of(assessed).Standing)}"
        );

    private static Assessed? Judged(ParseResult parsed, Session session, FileInfo file)
    {
        var loaded = RulesInForce.Sound(parsed);
        var gathered = RecordPaths.Reading(loaded).Gather<FiledRecord>([file.ToString()], filed => filed);
        RecordPaths.Tell(session.Error, gathered.Files.Problems);
        return gathered.Kept is [var filed]
            ? new AssessRecord(loaded.Book, loaded.Site!).Assess(filed)
            : null;
    }

    private static int OfPeriod(
        ParseResult parsed,
        Session session,
        string[] paths,
        DateOnly? from,
        DateOnly? until
    ) =>
        new ReportIssuing(parsed, session).OfPeriod(
            paths,
            () => Read(parsed, session, paths, from, until),
            (period, signer, at, authority, _) =>
                SafeWorkPeriodReport.Write(period, ReportTerms.Default, signer, at, authority),
            SafeWorkPeriodReport.TitleOf,
            period =>
                FormattableString.Invariant(
                    $"signed safe-work report of {ReportWords.Counted(period.Jobs.Length, "job", "jobs")}, {period.From:yyyy-MM-dd} to {period.Until:yyyy-MM-dd}"
                )
        );

    private static SafeWorkPeriod? Read(
        ParseResult parsed,
        Session session,
        string[] paths,
        DateOnly? from,
        DateOnly? until
    )
    {
        var loaded = RulesInForce.Sound(parsed);
        var reading = new ReadPeriod(
            new RecordsInFiles(RecordPaths.Reading(loaded), paths),
            loaded.Book,
            loaded.Site!,
            new Judge()
        );
        var outcome = reading.Read(from, until, out var files);
        RecordPaths.Tell(session.Error, files.Problems);
        if (outcome.TryGet(out var period, out var fault))
        {
            return period;
        }

        session.Error.WriteLine(fault);
        return null;
    }

    private static string Word(SafeWorkStanding standing) =>
        standing switch
        {
            SafeWorkStanding.NotShown => "not shown",
            SafeWorkStanding.NotProven => "not proven",
            SafeWorkStanding.InProgress => "in progress",
            SafeWorkStanding.Exempt => "exempt from lockout by a claim",
            SafeWorkStanding.Shown => "record shows safe work",
            _ => "not judged",
        };
}
