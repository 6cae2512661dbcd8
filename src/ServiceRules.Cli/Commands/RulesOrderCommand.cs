using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules order ID</c>: a setting order, entered without writing JSON.</summary>
internal static class RulesOrderCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What the order is called, such as S-2027-season.",
    };

    private static readonly Option<string?> From = new("--from")
    {
        Description = "First day in force, such as 2027-03-01.",
        HelpName = "DAY",
    };

    private static readonly Option<string?> Until = new("--until")
    {
        Description = "Last day in force. Default: until a later order replaces it.",
        HelpName = "DAY",
    };

    private static readonly Option<string[]> Height = Many(
        "--height",
        "Height of cut of an area, for one kind of unit if a limit sheet is named: golf-greens=3.8 mm, or golf-greens/reel-125-9-510=3.8 mm +- 0.1 mm.",
        "AREA[/SHEET]=LENGTH"
    );

    private static readonly Option<string[]> Target = Many(
        "--target",
        "Target of another quantity: groomer-height golf-greens=3.0 mm.",
        "QUANTITY AREA[/SHEET]=LENGTH"
    );

    private static readonly Option<string[]> School = Many(
        "--school",
        "How a kind of unit is set: reel-125-9-510=air-gap, or =light-contact.",
        "SHEET=SCHOOL"
    );

    private static readonly Option<string[]> Mowing = Many(
        "--speed",
        "Speeds that an area is mown at: golf-greens=4 km/h, 2200 rev/min.",
        "AREA[/SHEET]=GROUND, REEL"
    );

    private static readonly Option<string[]> Over = Many(
        "--over",
        "An order that this one knowingly takes precedence over while both are in force.",
        "ID"
    );

    private static readonly Option<string[]> NewArea = Many(
        "--new-area",
        "An area that no order names yet, and that is no slip of the pen.",
        "AREA"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "order",
            "Enters a setting order of the site: heights and other targets, schools and speeds, from a day on: 0 it is in the folder, 2 refused, and nothing is written."
        )
        {
            Identity,
            GivenPerson.By,
            From,
            Until,
            Height,
            Target,
            School,
            Mowing,
            Over,
            NewArea,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Sound(parsed);
        var order = OrderOf(parsed, loaded);
        var next = new List<string>
        {
            FormattableString.Invariant(
                $"{order.Id}: in force from {order.From:yyyy-MM-dd} {(order.Until is { } until ? FormattableString.Invariant($"through {until:yyyy-MM-dd}") : "until a later order replaces it")}, ordered by {order.By}"
            ),
        };
        var today = DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime);
        if (order.From < today)
        {
            next.Add(
                FormattableString.Invariant(
                    $"it begins before today ({today:yyyy-MM-dd}): records of those days, judged anew, may come out otherwise; `rules compare` shows which"
                )
            );
        }

        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            EnterOrder.Run(loaded, order, parsed.GetValue(Over) ?? [], parsed.GetValue(NewArea) ?? []),
            next
        );
    }

    private static SettingOrder OrderOf(ParseResult parsed, LoadedRules loaded)
    {
        var from =
            GivenValue.Day(parsed, From)
            ?? throw new InputException(
                "--from is not given: the first day in force; accepted: `--from 2027-03-01`"
            );
        var until = GivenValue.Day(parsed, Until);
        if (until < from)
        {
            throw new InputException(
                FormattableString.Invariant(
                    $"--until: {until:yyyy-MM-dd} is before --from {from:yyyy-MM-dd}; accepted: that day or later, or to leave it out"
                )
            );
        }

        return new()
        {
            Id = new(GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity))),
            By = new(
                GivenPerson.Registered(parsed, loaded)
                    ?? throw new InputException(
                        "--by is not given: who ordered it; accepted: a person of the register"
                    )
            ),
            From = from,
            Until = until,
            Targets =
            [
                .. Each(parsed, Height, GivenTarget.Height),
                .. Each(parsed, Target, GivenTarget.Target),
            ],
            Schools = [.. Each(parsed, School, GivenTarget.School)],
            Mowing = [.. Each(parsed, Mowing, GivenTarget.Speed)],
        };
    }

    private static IEnumerable<T> Each<T>(
        ParseResult parsed,
        Option<string[]> option,
        Func<string, string, T> read
    ) => (parsed.GetValue(option) ?? []).Select(text => read(option.Name, text));

    private static Option<string[]> Many(string name, string description, string help) =>
        new(name)
        {
            Description = description,
            HelpName = help,
            Arity = ArgumentArity.OneOrMore,
        };
}
