using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Json;
using ServiceRules.Reporting.Reports;

namespace ServiceRules.Cli.Commands;

/// <summary><c>report FILE -o OUT.pdf</c>: judges a record and writes the signed report.</summary>
internal static class ReportCommand
{
    public static Command Of(Session session)
    {
        var file = new Argument<FileInfo>("FILE") { Description = "The service record." };
        var command = new Command("report", "Judges a service record and writes the signed PDF report.")
        {
            file,
        };
        foreach (var option in ReportIssuing.Options)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed => Run(parsed, parsed.GetRequiredValue(file), session));
        return command;
    }

    private static int Run(ParseResult parsed, FileInfo file, Session session) =>
        new ReportIssuing(parsed, session).OfRecord(
            file,
            () => Judged(parsed, file, session),
            (assessed, signer, at, authority, proofs) =>
                JobReport.Write(assessed, ReportTerms.Default, signer, at, authority, proofs),
            assessed => JobReport.TitleOf(assessed.Record.Id.Text),
            assessed =>
                $"signed report of {assessed.Record.Id}, {assessed.Assessment.Job.Disposition.ToString().ToLowerInvariant()}"
        );

    private static Assessed? Judged(ParseResult parsed, FileInfo file, Session session)
    {
        var judging = RulesInForce.Judging(parsed);
        switch (judging.Assess(InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes)))
        {
            case AssessOutcome.Refused refused:
                ProblemPrint.Write(session.Error, file.ToString(), refused.Problems);
                return null;
            case AssessOutcome.Judged { Assessed: var assessed }:
                return assessed;
            default:
                throw new InvalidOperationException("an unknown outcome of judging");
        }
    }
}
