using System.CommandLine;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new site NAME</c>: the folder of a shop of one's own.</summary>
internal static class RulesNewSiteCommand
{
    private static readonly Argument<string> Name = new("NAME")
    {
        Description = "What the site is called, as reports say it.",
    };

    private static readonly Option<DirectoryInfo?> To = new("--to")
    {
        Description = "The folder to make: not there yet, or empty.",
        HelpName = "DIR",
    };

    private static readonly Option<string?> Zone = GivenEntry.One(
        "--time-zone",
        "The clock that the site goes by, as the zone data names it: America/Chicago.",
        "ZONE"
    );

    private static readonly Option<string[]> Lead = GivenEntry.Many(
        "--lead",
        "Who locks out and works on machines, and orders, waives and lets out what others did. A pseudonym, never a name.",
        "PERSON"
    );

    private static readonly Option<string[]> Technician = GivenEntry.Many(
        "--technician",
        "Who locks out and works on machines.",
        "PERSON"
    );

    private static readonly Option<string[]> Officer = GivenEntry.Many(
        "--officer",
        "Who may let out what others did and has no hands in machines.",
        "PERSON"
    );

    private static readonly Option<string[]> Operator = GivenEntry.Many(
        "--operator",
        "Who uses machines and leaves locks alone.",
        "PERSON"
    );

    private static readonly Option<string[]> Jurisdiction = GivenEntry.Many(
        "--jurisdiction",
        "A pack of a jurisdiction whose texts apply to the site.",
        "PACK"
    );

    private static readonly Option<string?> LockStyle = GivenEntry.One(
        "--lock-style",
        "How the locks and tags of the site look: red body, white name plate.",
        "TEXT"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "site",
            "Makes a folder for a shop of one's own: the packs and limit sheets of --rules, and registers with its clock and its people in them; of the site in --rules nothing. 0 it is there, 2 refused, and nothing is written."
        )
        {
            Name,
            To,
            Zone,
            RulesClockCommand.DataVersion,
            Lead,
            Technician,
            Officer,
            Operator,
            Jurisdiction,
            LockStyle,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = RulesInForce.Load(parsed);
        if (!loaded.IsSound)
        {
            loaded = RulesInForce.Sound(loaded);
        }

        var gathered = new Gathered();
        var people = new (Option<string[]> Option, ShopRole Role)[]
        {
            (Lead, ShopRole.Lead),
            (Technician, ShopRole.Technician),
            (Officer, ShopRole.Officer),
            (Operator, ShopRole.Operator),
        }.SelectMany(one =>
            gathered.Each(
                parsed.GetValue(one.Option),
                id => (GivenPerson.Identified(one.Option.Name, id), one.Role)
            )
        );
        var demand = new SiteDemand
        {
            Name = parsed.GetRequiredValue(Name),
            TimeZone = parsed.GetValue(Zone),
            ZoneData = parsed.GetValue(RulesClockCommand.DataVersion),
            Folder = parsed.GetValue(To)?.FullName ?? "",
            People = [.. people],
            Jurisdictions = [.. parsed.GetValue(Jurisdiction) ?? []],
            LockStyle = parsed.GetValue(LockStyle),
            Today = DateOnly.FromDateTime(session.Clock.GetUtcNow().UtcDateTime),
        };
        gathered.Add(NewSite.Against(loaded, demand));
        gathered.End(parsed.GetValue(To)?.ToString() ?? "--to");
        return AuthoringPrint.Write(session, demand.Folder, Made(loaded, demand), Next(demand, parsed));
    }

    private static AuthoringOutcome Made(LoadedRules loaded, SiteDemand demand)
    {
        try
        {
            return NewSite.Run(loaded, demand);
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure) && failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"`{demand.Folder}` cannot be made: {failure.Message}");
        }
    }

    private static IEnumerable<string> Next(SiteDemand demand, ParseResult parsed)
    {
        var folder = parsed.GetValue(To)!.ToString();
        yield return FormattableString.Invariant(
            $"clock: {demand.TimeZone} from {SiteClock.FirstYear(demand.Today)} through {SiteClock.LastYear(demand.Today)}, zone data {demand.ZoneData ?? KnownZones.Version()}; kept in site.json; `rules clock` computes it anew before that is over, or when the law on clocks changes"
        );
        foreach (var (id, role) in demand.People)
        {
            var person = ShopRoles.Person(id, role);
            yield return $"{id}: {(person.Authorised ? "authorised" : "not authorised")}{(person.MayRelease ? ", may release, order and waive" : "")}"
                + (
                    person.Authorised
                        ? $"; when trained is not stated, so that no job of theirs may go out: servicerules rules new person {id} --change --trained-on DAY --trained-until DAY --rules {folder}"
                        : ""
                );
        }

        yield return "limit sheets: examples, until their figures were held against the manuals of your own units";
        yield return $"next: servicerules rules new machine, instrument, lock and procedure, servicerules rules order, each with --rules {folder}";
        yield return $"next: servicerules serve --rules {folder} --data DIR; from the first day to the first report: docs/own-shop.md";
    }
}
