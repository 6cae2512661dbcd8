using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new machine ID</c>: a machine with every source of energy it has, in the register.</summary>
internal static class RulesNewMachineCommand
{
    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "What stands on the machine, such as M-01.",
    };

    private static readonly Option<string?> Title = GivenEntry.One(
        "--title",
        "Plain name: Ride-on, three units, M-01.",
        "TEXT"
    );

    private static readonly Option<string?> Like = GivenEntry.One(
        "--like",
        $"A machine of the register whose sources it has too, or an example ({MachineExamples.Names}), whose words are marked until they were read in the machine's own manual.",
        "ID"
    );

    private static readonly Option<string[]> Without = GivenEntry.Many(
        "--without",
        "A source of those that this machine has not.",
        "SOURCE"
    );

    private static readonly Option<string[]> Area = GivenEntry.Many(
        "--area",
        "An area that it mows, as setting orders name it.",
        "AREA"
    );

    private static readonly Option<string?> Units = GivenEntry.One(
        "--units",
        "How many cutting units it has.",
        "N"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "machine",
            "Enters a machine with every source of energy it has in the register of the site: 0 it is in the registers, 2 refused, and nothing is written. Somebody who knows the machine walks round it first."
        )
        {
            Identity,
            Title,
            Like,
            GivenEntry.Source,
            Without,
            Area,
            Units,
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
        var register = Registered.Machines(loaded);
        var gathered = new Gathered();
        var id = gathered.Of(() => GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity))) ?? "";
        gathered.Add(id.Length == 0 ? null : register.Against(id, changes));
        var standing = changes ? register.Find(id) : null;
        var like = gathered.Of(() => LikeOf(parsed, register)?.ToArray());
        if (changes && like is not null)
        {
            gathered.Add(
                $"{Like.Name}: an entry that stands is not laid out anew with {GivenEntry.Change.Name}, since what was read in its manual would be lost; accepted: {GivenEntry.Source.Name} for what changes, {Without.Name} for what goes"
            );
        }

        var sources = Sources(parsed, gathered, [.. like ?? [.. standing?.Sources ?? []]]);
        if (sources.IsEmpty && !changes && parsed.GetValue(Like) is null)
        {
            gathered.Add(
                $"{GivenEntry.Source.Name} is not given: what could move or hurt; accepted: `{GivenEntry.Source.Name} \"engine_start proof=...\"`, or {Like.Name} with a machine of the register or an example ({MachineExamples.Names})"
            );
        }

        var title = parsed.GetValue(Title) ?? standing?.Title;
        if (title is null && !changes)
        {
            gathered.Add(
                $"{Title.Name} is not given: its plain name; accepted: `{Title.Name} \"Ride-on, three units\"`"
            );
        }

        var units = gathered.Of(() => Count(parsed)) ?? standing?.Units;
        gathered.End(loaded.Folder);
        var areas = parsed.GetValue(Area) ?? [];
        var machine = new RegisteredMachine(new(id), title!, sources)
        {
            Areas = areas.Length > 0 ? [.. areas] : standing?.Areas ?? [],
            Units = units,
        };
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            EnterInRegister.Machine(loaded, machine, changes),
            Next(loaded, machine)
        );
    }

    private static ImmutableArray<EnergySource>? LikeOf(
        ParseResult parsed,
        Registered<RegisteredMachine> register
    ) =>
        parsed.GetValue(Like) is not { } named
            ? null
            : register.Find(named)?.Sources
                ?? MachineExamples.Of(named)
                ?? throw new InputException(
                    $"{Like.Name}: there is no machine and no example `{named}`; accepted: {MachineExamples.Names}; of the register: {register.Names}"
                );

    private static ImmutableArray<EnergySource> Sources(
        ParseResult parsed,
        Gathered gathered,
        ImmutableArray<EnergySource> standing
    )
    {
        var without = parsed.GetValue(Without) ?? [];
        foreach (var named in without.Where(one => standing.All(source => source.Id.Text != one)))
        {
            gathered.Add(
                $"{Without.Name}: there is no source `{named}` to leave out; accepted: {string.Join(", ", standing.Select(source => source.Id))}"
            );
        }

        var sources = SourceMembers.With(
            [.. standing.Where(source => !without.Contains(source.Id.Text))],
            [.. GivenEntry.Sources(parsed, gathered)],
            out var problems
        );
        gathered.Add(problems);
        return sources;
    }

    private static int? Count(ParseResult parsed) =>
        parsed.GetValue(Units) is not { } text ? null
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count > 0
            ? count
        : throw new InputException(
            $"{Units.Name}: `{text}` is no number of cutting units; accepted: a whole number from 1"
        );

    private static IEnumerable<string> Next(LoadedRules loaded, RegisteredMachine machine)
    {
        yield return $"{machine.Id}: {machine.Title}; sources: {string.Join(", ", machine.Sources.Select(source => source.Id))}";
        var taken = machine
            .Sources.Where(MachineExamples.IsTakenOver)
            .Select(source => source.Id.Text)
            .ToList();
        if (taken.Count > 0)
        {
            yield return $"words of an example, not yet read in this machine's own manual: {string.Join(", ", taken)}; give isolator, release and proof of each as the manual has them: servicerules rules new machine {machine.Id} --change --source \"{taken[0]} isolator=...\" --source \"{taken[0]} proof=...\"";
        }

        if (!loaded.Library.Procedures.Any(one => one.Value.Machines.Contains(machine.Id)))
        {
            yield return $"next: no written procedure covers {machine.Id}: servicerules rules new procedure ID --machine {machine.Id}, once it is written from the machine's own manual and held against local codes";
        }

        var areas = loaded
            .Library.Orders.SelectMany(order => order.Value.Targets)
            .Select(target => target.Area)
            .ToHashSet(StringComparer.Ordinal);
        foreach (var area in machine.Areas.Where(area => !areas.Contains(area)))
        {
            yield return $"next: no setting order gives {area} a height: servicerules rules order ID --by PERSON --from DAY --height \"{area}=LENGTH\" --new-area {area}";
        }
    }
}
