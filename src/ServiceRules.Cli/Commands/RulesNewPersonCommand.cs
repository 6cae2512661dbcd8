using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new person ID</c>: somebody of the shop, in its register.</summary>
internal static class RulesNewPersonCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "A pseudonym, such as tech-03; never a name.",
    };

    private static readonly Option<string?> Role = GivenEntry.One(
        "--role",
        $"What the person does: {GivenWord.All<ShopRole>()}. A technician locks out and works on machines; a lead also orders, waives and lets out; an officer lets out alone; an operator uses machines.",
        "ROLE"
    );

    private static readonly Option<string?> TrainedOn = GivenEntry.One(
        "--trained-on",
        "Day of the training that the authorisation rests on.",
        "DAY"
    );

    private static readonly Option<string?> TrainedUntil = GivenEntry.One(
        "--trained-until",
        "Until when it holds. Default: no end stated.",
        "DAY"
    );

    private static readonly Option<string[]> Covers = GivenEntry.Many(
        "--covers",
        "A source of energy that the training covers, as the machines name it. Default: not stated.",
        "SOURCE"
    );

    private static readonly Option<string?> TagLimitsOn = GivenEntry.One(
        "--tag-limits-on",
        "When the person was taught the limits of tags.",
        "DAY"
    );

    private static readonly Option<string?> InstructedOn = GivenEntry.One(
        "--instructed-on",
        "When somebody who uses machines was told what lockout is, and to leave it alone.",
        "DAY"
    );

    private static readonly Option<string?> Left = GivenEntry.One(
        "--left",
        "Last day with the site, of somebody who has left.",
        "DAY"
    );

    private static readonly Option<string?> Crew = GivenEntry.One(
        "--crew",
        "The crew that the person belongs to.",
        "ID"
    );

    private static readonly Option<string?> EmployerOption = GivenEntry.One(
        "--employer",
        "For whom the person works: site or outside. Default: site.",
        "WORD"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "person",
            "Enters somebody of the shop in its register, or changes what stands there: 0 it is in the registers, 2 refused, and nothing is written."
        )
        {
            Identity,
            Role,
            TrainedOn,
            TrainedUntil,
            Covers,
            TagLimitsOn,
            InstructedOn,
            Crew,
            EmployerOption,
            Left,
            GivenEntry.Change,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = GivenEntry.Folder(parsed);
        var changes = parsed.GetValue(GivenEntry.Change);
        var register = Registered.People(loaded);
        var gathered = new Gathered();
        var id = gathered.Of(() => GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity))) ?? "";
        gathered.Add(id.Length == 0 ? null : register.Against(id, changes));
        var standing = changes ? register.Find(id) : null;
        var person = PersonOf(parsed, gathered, id, standing);
        gathered.Add(NothingSaid(parsed, changes));
        gathered.End(loaded.Folder);
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            EnterInRegister.Person(loaded, person, changes),
            Next(loaded, person)
        );
    }

    private static RegisteredPerson PersonOf(
        ParseResult parsed,
        Gathered gathered,
        string id,
        RegisteredPerson? standing
    )
    {
        var role = gathered.Of<ShopRole?>(() =>
            parsed.GetValue(Role) is { } given ? GivenWord.Of<ShopRole>(Role.Name, given)
            : standing is not null || parsed.GetValue(GivenEntry.Change) ? null
            : throw new InputException(
                $"{Role.Name} is not given: what the person does, and with it what the register lets them do; accepted: {GivenWord.All<ShopRole>()}"
            )
        );
        var plain = standing ?? new(new(id), false, null, null);
        var person = role is { } known ? ShopRoles.Let(plain, known) : plain;
        var covers = gathered.Each(parsed.GetValue(Covers), source => new Id<EnergySource>(source));
        DateOnly? Day(Option<string?> option, DateOnly? before) =>
            gathered.Of(() => GivenValue.Day(parsed, option)) ?? before;
        var whole = person with
        {
            TrainedOn = Day(TrainedOn, person.TrainedOn),
            TrainedUntil = Day(TrainedUntil, person.TrainedUntil),
            TagLimitsOn = Day(TagLimitsOn, person.TagLimitsOn),
            InstructedOn = Day(InstructedOn, person.InstructedOn),
            Left = Day(Left, person.Left),
            Crew = parsed.GetValue(Crew) ?? person.Crew,
            Employer =
                gathered.Of<Employer?>(() =>
                    parsed.GetValue(EmployerOption) is { } given
                        ? GivenWord.Of<Employer>(EmployerOption.Name, given)
                        : null
                ) ?? person.Employer,
            Covers = covers.Count > 0 ? [.. covers] : person.Covers,
            StatesCovers = covers.Count > 0 || person.StatesCovers,
        };
        if (whole is { TrainedOn: null, TrainedUntil: not null })
        {
            gathered.Add(
                $"{TrainedOn.Name} is not given: since when the training holds; accepted: `{TrainedOn.Name} 2027-01-20`"
            );
        }

        if (whole.TrainedUntil < whole.TrainedOn)
        {
            gathered.Add(
                FormattableString.Invariant(
                    $"{TrainedUntil.Name}: {whole.TrainedUntil:yyyy-MM-dd} is before {TrainedOn.Name}, {whole.TrainedOn:yyyy-MM-dd}; accepted: that day or later"
                )
            );
        }

        return whole;
    }

    private static string? NothingSaid(ParseResult parsed, bool changes) =>
        changes && !GivenEntry.SaysSomething(parsed, GivenEntry.Change, RulesInForce.Option)
            ? "--change: nothing is given to change; accepted: at least one of the options that `--help` names"
            : null;

    private static IEnumerable<string> Next(LoadedRules loaded, RegisteredPerson person)
    {
        yield return $"{person.Id}: {(person.Authorised ? "authorised" : "not authorised")}{(person.MayRelease ? ", may release, order and waive" : "")}";
        if (person is { Authorised: true, TrainedOn: null })
        {
            yield return $"when {person.Id} was trained is not stated: no job of theirs may go out until it is";
        }

        var known = loaded
            .Library.Machines.SelectMany(machine => machine.Value.Sources)
            .Select(source => source.Id)
            .ToHashSet();
        foreach (var source in person.Covers.Where(one => !known.Contains(one)))
        {
            yield return $"no machine of the register has a source `{source}` yet";
        }
    }
}
