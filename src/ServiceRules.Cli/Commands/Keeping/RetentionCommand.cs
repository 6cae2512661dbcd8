using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Cli.Commands.Keeping;

/// <summary><c>retention</c>: how long contents are kept, and the removal of those whose time is over.</summary>
internal static class RetentionCommand
{
    private const string Ever = "ever";

    private static readonly Option<string?> Records = new("--records")
    {
        Description = "Years for records and comments on them, or `ever`.",
    };

    private static readonly Option<string?> Assessments = new("--assessments")
    {
        Description = "Years for assessments and the registers beside them, or `ever`.",
    };

    private static readonly Option<string?> Reports = new("--reports")
    {
        Description = "Years for reports on records, or `ever`.",
    };

    public static Command Of(Session session) =>
        new("retention", "Says how long contents are kept, and removes those whose time is over.")
        {
            Set(session),
            Show(session),
            Run(session),
        };

    private static Command Set(Session session)
    {
        var command = new Command(
            "set",
            "Sets how long contents are kept after the day of the job; what is not given stays as it is. Needs --by and --reason."
        )
        {
            Records,
            Assessments,
            Reports,
        }.TakingPersonAndLedger();
        command.SetAction(parsed =>
        {
            using var ledger = LedgerInUse.Existing(parsed, session);
            var why = AnsweredFor.By(parsed, "retention", ledger);
            var before = RetentionOfLog.Read(ledger.Ledger.Log).Years;
            var years = new Retention
            {
                Records = Years(parsed, Records, before.Records),
                Assessments = Years(parsed, Assessments, before.Assessments),
                Reports = Years(parsed, Reports, before.Reports),
            };
            return FilingPrint.Write(
                session,
                "retention",
                "retention",
                RetentionOfLog.Set(ledger.Ledger, years, why, AccountAct.Machine)
            );
        });
        return command;
    }

    private static Command Show(Session session)
    {
        var command = new Command(
            "show",
            "Tells how long contents are kept, since when, by whom and why."
        ).TakingLedger();
        command.SetAction(parsed =>
        {
            using var ledger = LedgerInUse.ToRead(parsed, session);
            var log = ledger.Ledger.Log;
            var (entry, years) = RetentionOfLog.Read(log);
            session.Tell(
                $"records {Told(years.Records)}, assessments {Told(years.Assessments)}, reports {Told(years.Reports)}"
                    + (
                        entry is null
                            ? "; nothing was set"
                            : string.Create(
                                CultureInfo.InvariantCulture,
                                $"; since {entry.Entry.At.UtcDateTime:yyyy-MM-dd}, by {(entry.Entry.By is { } by ? log.PersonBehind(by) ?? by : "nobody")}, because: {entry.Entry.Reason}"
                            )
                    )
            );
            return ExitCode.Good;
        });
        return command;
    }

    private static Command Run(Session session)
    {
        var dry = new Option<bool>("--dry-run")
        {
            Description = "Tell what would be removed, and remove nothing.",
        };
        var command = new Command(
            "run",
            "Removes contents whose time is over and that no hold keeps. Cannot be undone."
        )
        {
            dry,
        }.TakingLedger();
        command.SetAction(parsed =>
        {
            using var ledger = LedgerInUse.Existing(parsed, session);
            var isDry = parsed.GetValue(dry);
            var run = new RunRetention(ledger.Ledger).Run(
                DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime),
                AccountAct.Machine,
                isDry
            );
            foreach (var record in run.Due)
            {
                session.Tell($"{record}: {(isDry ? "would be removed" : "removed")}");
            }

            foreach (var held in run.Held)
            {
                session.Tell($"{held.Record}: kept by {held.Hold}");
            }

            session.Tell(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{run.Contents} contents of {run.Due.Length} records {(isDry ? "would be removed" : "removed")}, {run.Held.Length} records held"
                )
            );
            return ExitCode.Good;
        });
        return command;
    }

    private static string Told(int? years) =>
        years is { } some ? string.Create(CultureInfo.InvariantCulture, $"{some} years") : "for ever";

    private static int? Years(ParseResult parsed, Option<string?> option, int? before) =>
        parsed.GetValue(option) switch
        {
            null => before,
            Ever => null,
            var given
                when int.TryParse(given, NumberStyles.None, CultureInfo.InvariantCulture, out var years)
                    && years is >= 1 and <= RetentionFormat.YearsMost => years,
            var given => throw new InputException(
                $"{option.Name}: `{given}`; accepted: 1 to {RetentionFormat.YearsMost}, or `{Ever}`"
            ),
        };
}
