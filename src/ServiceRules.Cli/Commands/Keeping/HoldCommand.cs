using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Cli.Commands.Keeping;

/// <summary><c>hold</c>: what is kept whatever falls due, and whoever asks for it to be forgotten.</summary>
internal static class HoldCommand
{
    private static readonly Option<string?> Record = new("--record") { Description = "A record." };
    private static readonly Option<string?> Machine = new("--machine")
    {
        Description = "Records of a machine.",
    };
    private static readonly Option<string?> Person = new("--person")
    {
        Description = "Records that name a person.",
    };
    private static readonly Option<string?> From = new("--from") { Description = "The first day of jobs." };
    private static readonly Option<string?> Until = new("--until") { Description = "The last day of jobs." };

    public static Command Of(Session session) =>
        new("hold", "Keeps records from retention and from being forgotten, until it is lifted.")
        {
            Add(session),
            Lift(session),
            List(session),
        };

    private static Command Add(Session session)
    {
        var command = new Command(
            "add",
            "Keeps the records that all of what is named fits. Needs --by and --reason."
        )
        {
            Record,
            Machine,
            Person,
            From,
            Until,
        }.TakingPersonAndLedger();
        command.SetAction(parsed =>
        {
            var scope = new HoldDocument
            {
                Record = Identity(parsed, Record),
                Machine = Identity(parsed, Machine),
                Person = Identity(parsed, Person),
                From = Day(parsed, From),
                Until = Day(parsed, Until),
            };
            using var ledger = LedgerInUse.Existing(parsed, session);
            var why = AnsweredFor.By(parsed, "holding", ledger);
            var outcome = new KeepHolds(ledger.Ledger).Add(scope, why, AccountAct.Machine);
            return FilingPrint.Write(
                session,
                "hold",
                outcome is FilingOutcome.Filed filed ? filed.Entries[0].Entry.Entry.Subject : "hold",
                outcome
            );
        });
        return command;
    }

    private static Command Lift(Session session)
    {
        var id = new Argument<string>("HOLD") { Description = "The hold, as `hold list` names it." };
        var command = new Command("lift", "Lifts a hold. Needs --by and --reason.")
        {
            id,
        }.TakingPersonAndLedger();
        command.SetAction(parsed =>
        {
            var name = parsed.GetRequiredValue(id);
            using var ledger = LedgerInUse.Existing(parsed, session);
            var why = AnsweredFor.By(parsed, "lifting", ledger);
            return FilingPrint.Write(
                session,
                name,
                name,
                new KeepHolds(ledger.Ledger).Lift(name, why, AccountAct.Machine)
            );
        });
        return command;
    }

    private static Command List(Session session)
    {
        var command = new Command(
            "list",
            "Tells every hold: what it keeps, since when, by whom and why."
        ).TakingLedger();
        command.SetAction(parsed =>
        {
            using var ledger = LedgerInUse.ToRead(parsed, session);
            var log = ledger.Ledger.Log;
            foreach (var hold in HoldsOfLog.Read(log).All)
            {
                var entry = hold.Entry.Entry;
                session.Tell(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{hold.Id}: {hold.Told}; since {entry.At.UtcDateTime:yyyy-MM-dd}, by {By(log, entry)}, because: {entry.Reason}"
                    )
                        + (
                            hold.Lifted is { } lifted
                                ? string.Create(
                                    CultureInfo.InvariantCulture,
                                    $"; lifted {lifted.Entry.At.UtcDateTime:yyyy-MM-dd} by {By(log, lifted.Entry)}, because: {lifted.Entry.Reason}"
                                )
                                : ""
                        )
                );
            }

            return ExitCode.Good;
        });
        return command;
    }

    private static string By(ILedgerReading log, LedgerEntry entry) =>
        entry.By is { } by ? log.PersonBehind(by) ?? by : "nobody";

    private static string? Identity(ParseResult parsed, Option<string?> option) =>
        parsed.GetValue(option) is { } given ? GivenPerson.Identified(option.Name, given) : null;

    private static DateOnly? Day(ParseResult parsed, Option<string?> option) =>
        parsed.GetValue(option) is not { } given ? null
        : DateOnly.TryParseExact(
            given,
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
        : throw new InputException($"{option.Name}: `{given}` is no day; accepted: such as 2026-04-13");
}
