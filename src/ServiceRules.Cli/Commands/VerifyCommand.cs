using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Verifying;
using Spectre.Console;

namespace ServiceRules.Cli.Commands;

/// <summary><c>verify FILE.pdf</c>: whether a report is genuine and complete, point by point.</summary>
internal static class VerifyCommand
{
    public static Command Of(Session session)
    {
        var file = new Argument<FileInfo>("FILE") { Description = "The signed report." };
        var command = new Command(
            "verify",
            "Says whether a signed report is genuine and complete: 0 genuine, 1 not, 2 unreadable."
        )
        {
            file,
            TrustedCertificates.Option,
            SigningKeys.Folder,
        };
        command.SetAction(parsed => Run(parsed, parsed.GetRequiredValue(file), session));
        return command;
    }

    private static int Run(ParseResult parsed, FileInfo file, Session session)
    {
        var bytes = InputFile.ReadUpTo(file.FullName, VerificationLimits.BytesMax);
        var reader = new PdfReportReader(TrustedCertificates.Load(parsed));
        var report = new VerifyReport(reader, new Judge()).Verify(bytes);
        Print(report, file.Name, session.Screen);
        return report.Standing switch
        {
            ReportStanding.Genuine => ExitCode.Good,
            ReportStanding.NotGenuine => ExitCode.NotGood,
            _ => ExitCode.Unusable,
        };
    }

    private static void Print(VerifiedReport report, string name, IAnsiConsole screen)
    {
        var (word, style) = report.Standing switch
        {
            ReportStanding.Genuine => ("GENUINE", "green"),
            ReportStanding.NotGenuine => ("NOT GENUINE", "red"),
            _ => ("UNREADABLE", "red"),
        };
        screen.MarkupLineInterpolated($"[bold]{name}[/]: [bold {style}]{word}[/]");
        foreach (var point in report.Points)
        {
            var mark = point.Passed switch
            {
                true => "ok        ",
                false => "FAILED    ",
                null => "not looked",
            };
            screen.MarkupLineInterpolated($"  {mark}  {point.Name}: {point.Told}");
        }

        if (report.Signer is { } signer)
        {
            screen.MarkupLineInterpolated($"  signed by {signer}");
        }

        if (report.SignedAt is { } at)
        {
            screen.MarkupLineInterpolated(
                $"  stated time {at.ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture)} (the signer's own clock)"
            );
        }
    }
}
