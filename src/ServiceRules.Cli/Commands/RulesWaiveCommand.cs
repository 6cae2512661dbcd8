using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules waive RULE</c>: a dated, reasoned loosening of one rule, entered without writing JSON.</summary>
internal static class RulesWaiveCommand
{
    private static readonly Argument<string> Rule = new("RULE") { Description = "The rule." };

    private static readonly Option<string?> From = new("--from")
    {
        Description = "First day, such as 2027-03-01.",
        HelpName = "DAY",
    };

    private static readonly Option<string?> Until = new("--until")
    {
        Description = "Last day.",
        HelpName = "DAY",
    };

    private static readonly Option<string?> Unit = new("--unit")
    {
        Description = "Only on this unit. Default: on all.",
        HelpName = "ID",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "waive",
            "Enters a waiver of one rule, with who, why, from and until; it is told in every finding and report that it touches: 0 it is in the registers, 2 refused, and nothing is written."
        )
        {
            Rule,
            GivenPerson.By,
            GivenPerson.Reason,
            From,
            Until,
            Unit,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var waiver = new Waiver(
            parsed.GetRequiredValue(Rule),
            parsed.GetValue(Unit) is { } unit ? GivenPerson.Identified(Unit.Name, unit) : null,
            new(
                GivenPerson.Registered(parsed, loaded)
                    ?? throw new InputException(
                        "--by is not given: who waives it; accepted: a person of the register who may release"
                    )
            ),
            GivenWord.Needed(parsed, GivenPerson.Reason, "why", "TEXT"),
            Day(parsed, From, "the first day"),
            Day(parsed, Until, "the last day; a waiver has an end")
        );
        List<string> next =
        [
            FormattableString.Invariant(
                $"{waiver.Rule}: waived on {waiver.Unit ?? "every unit"} from {waiver.From:yyyy-MM-dd} through {waiver.Until:yyyy-MM-dd} by {waiver.By}: {waiver.Reason}"
            ),
            $"it lets out only jobs in which {waiver.By} had no hands, and is told in each finding and report that it touches",
        ];
        var today = DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime);
        if (waiver.From < today)
        {
            next.Add(
                FormattableString.Invariant(
                    $"it begins before today ({today:yyyy-MM-dd}): records of those days, judged anew, may come out otherwise; `rules compare` shows which"
                )
            );
        }

        return AuthoringPrint.Write(session, loaded.Folder, EnterWaiver.Run(loaded, waiver), next);
    }

    private static DateOnly Day(ParseResult parsed, Option<string?> option, string what) =>
        GivenValue.Day(parsed, option)
        ?? throw new InputException(
            $"{option.Name} is not given: {what}; accepted: `{option.Name} 2027-03-01`"
        );
}
