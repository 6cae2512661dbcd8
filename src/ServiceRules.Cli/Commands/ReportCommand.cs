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
        var output = new Option<FileInfo>("--output", "-o")
        {
            Description = "The PDF to write.",
            Required = true,
            HelpName = "OUT.pdf",
        };
        var command = new Command("report", "Judges a service record and writes the signed PDF report.")
        {
            file,
            output,
            RulesInForce.Option,
            SigningKeys.Folder,
            SigningKeys.Pkcs12,
            SigningKeys.PasswordFile,
            SigningKeys.Organisation,
        };
        command.SetAction(parsed =>
            Run(parsed, parsed.GetRequiredValue(file), parsed.GetRequiredValue(output), session)
        );
        return command;
    }

    private static int Run(ParseResult parsed, FileInfo file, FileInfo output, Session session)
    {
        if (
            string.Equals(
                Path.GetFullPath(file.FullName),
                Path.GetFullPath(output.FullName),
                StringComparison.Ordinal
            )
        )
        {
            throw new InputException(
                $"`{output}` is the record itself; accepted: another file to write the report to"
            );
        }

        if (!string.Equals(output.Extension, ".pdf", StringComparison.OrdinalIgnoreCase) && output.Exists)
        {
            throw new InputException(
                $"`{output}` is there and is no PDF; accepted: a file that ends in .pdf, or a new one"
            );
        }

        var judging = RulesInForce.Judging(parsed);
        switch (judging.Assess(InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes)))
        {
            case AssessOutcome.Refused refused:
                ProblemPrint.Write(session.Error, file.ToString(), refused.Problems);
                return ExitCode.Unusable;
            case AssessOutcome.Judged { Assessed: var assessed }:
                using (var key = SigningKeys.Open(parsed, session))
                {
                    var pdf = JobReport.Write(assessed, ReportTerms.Default, key, session.Clock.GetUtcNow());
                    InputFile.Write(output.FullName, pdf);
                }

                session.Output.WriteLine(
                    $"{output}: signed report of {assessed.Record.Id}, {assessed.Assessment.Job.Disposition.ToString().ToLowerInvariant()}"
                );
                return ExitCode.Good;
            default:
                throw new InvalidOperationException("an unknown outcome of judging");
        }
    }
}
