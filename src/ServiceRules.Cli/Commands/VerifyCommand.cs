using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Verifying;
using Spectre.Console;

namespace ServiceRules.Cli.Commands;

/// <summary><c>verify FILE.pdf</c>: whether a report is genuine and complete, point by point.</summary>
internal static class VerifyCommand
{
    private const string Json = "json";

    public static Command Of(Session session)
    {
        var file = new Argument<FileInfo>("FILE") { Description = "The signed report." };
        var format = new Option<string>("--format")
        {
            Description = "text, or json: the standing and every point, on one line.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "verify",
            "Says whether a signed report is genuine and complete: 0 genuine, 1 not (or not known to be: signer or time-stamp not trusted, another version), 2 unreadable."
        )
        {
            file,
            format,
            TrustedCertificates.Option,
            TimestampAuthorities.Trusted,
            RevocationLists.Option,
            SigningKeys.Folder,
        };
        foreach (var option in ReportDemands.All)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
            Run(parsed, parsed.GetRequiredValue(file), parsed.GetValue(format) == Json, session)
        );
        return command;
    }

    private static int Run(ParseResult parsed, FileInfo file, bool asJson, Session session)
    {
        var bytes = InputFile.ReadUpTo(file.FullName, VerificationLimits.BytesMax);
        var reader = new PdfReportReader(
            new VerificationGrounds(TrustedCertificates.Load(parsed), TimestampAuthorities.Load(parsed))
            {
                Revocations = RevocationLists.Load(parsed),
                CheckedAt = session.Clock.GetUtcNow(),
                AsksForRevocation = RevocationLists.AreGiven(parsed),
            }
        );
        var demand = ReportDemands.Of(parsed);
        var report = new VerifyReport(reader, new Judge(), new ReportRedrawing(), demand).Verify(bytes);
        if (asJson)
        {
            session.Output.WriteLine(StandingJson.Of(report, file.Name));
        }
        else
        {
            Print(report, file.Name, session.Screen);
        }

        return report.Standing switch
        {
            ReportStanding.Genuine => ExitCode.Good,
            ReportStanding.Unreadable => ExitCode.Unusable,
            _ => ExitCode.NotGood,
        };
    }

    private static void Print(VerifiedReport report, string name, IAnsiConsole screen)
    {
        var (word, style) = report.Standing switch
        {
            ReportStanding.Genuine => ("GENUINE", "green"),
            ReportStanding.SignerNotTrusted => ("INTACT, SIGNER NOT TRUSTED", "yellow"),
            ReportStanding.NotEstablished => ("INTACT, NOT ALL ESTABLISHED", "yellow"),
            ReportStanding.NotGenuine => ("NOT GENUINE", "red"),
            _ => ("UNREADABLE", "red"),
        };
        screen.MarkedLine($"[bold]{name}[/]: [bold {style}]{word}[/]");
        foreach (var point in report.Points)
        {
            var mark = point.Result switch
            {
                PointResult.Passed => "ok        ",
                PointResult.Failed => "FAILED    ",
                PointResult.NotEstablished => "not known ",
                PointResult.NotClaimed => "none      ",
                _ => "not looked",
            };
            screen.MarkedLine($"  {mark}  {point.Name}: {point.Told}");
        }

        if (report.Standing is ReportStanding.SignerNotTrusted)
        {
            screen.TextLine(
                "  nothing was changed since it was signed; get the signer's certificate from them by another way, and give it with --trust"
            );
        }

        if (report.Signer is { } signer)
        {
            screen.MarkedLine($"  signed by {signer}");
        }

        if (report.SignedAt is { } at)
        {
            screen.MarkedLine($"  stated time {UtcTime.Print(at)} (the signer's own clock)");
        }

        if (report.TrustedTime is { } stamped)
        {
            screen.MarkedLine($"  proven time {UtcTime.Print(stamped)} (the time-stamp authority's clock)");
        }
    }
}
