using System.CommandLine;
using System.Globalization;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules new procedure ID</c>: a written make-safe procedure of the shop, in the form of the registers.</summary>
internal static class RulesNewProcedureCommand
{
    private const int RunDownMost = 60 * 60;

    private static readonly Argument<string> Identity = new("ID")
    {
        Description = "Its identity and revision, such as P-ride-on-1.",
    };

    private static readonly Option<string?> Title = GivenEntry.One(
        "--title",
        "Plain name of the kind of machine it is for.",
        "TEXT"
    );

    private static readonly Option<string[]> Machine = GivenEntry.Many(
        "--machine",
        "A machine that it covers; for the bench also the bench itself.",
        "ID"
    );

    private static readonly Option<string?> Place = GivenEntry.One(
        "--place",
        "Where the units are: on-machine or on-bench. Default: on-machine.",
        "PLACE"
    );

    private static readonly Option<string?> Key = Control("--key", "has a key");

    private static readonly Option<string?> Brake = Control("--parking-brake", "has a parking brake");

    private static readonly Option<string?> Lowering = Control("--lowering-units", "lowers its units");

    private static readonly Option<string?> Drive = Control(
        "--reel-drive",
        "has a reel drive that can be disengaged"
    );

    private static readonly Option<string?> From = GivenEntry.One("--from", "First day in force.", "DAY");

    private static readonly Option<string?> RunDown = GivenEntry.One(
        "--run-down",
        "How many seconds everything takes to come to rest after a stop, at the least, by the manual.",
        "SECONDS"
    );

    private static readonly Option<string?> Replaces = GivenEntry.One(
        "--replaces",
        "The procedure that this one takes the place of, which is in force until the day before.",
        "ID"
    );

    private static readonly Option<string?> StepsChanged = GivenEntry.One(
        "--control-steps-changed",
        "With --replaces: whether energy is controlled otherwise than before, so that whoever uses it is trained again: yes or no.",
        "WORD"
    );

    public static Command Of(Session session)
    {
        var command = new Command(
            "procedure",
            "Puts a written make-safe procedure of the shop into the form of the registers, with the sources of its machines as they are registered: 0 it is in the folder, 2 refused, and nothing is written. It makes none up, and says of nobody that they inspected it."
        )
        {
            Identity,
            Title,
            Machine,
            Place,
            GivenEntry.Source,
            Key,
            Brake,
            Lowering,
            Drive,
            From,
            RunDown,
            Replaces,
            StepsChanged,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var loaded = GivenEntry.Folder(parsed);
        var gathered = new Gathered();
        var id = gathered.Of(() => GivenPerson.Identified("ID", parsed.GetRequiredValue(Identity)));
        var title = gathered.Of(() =>
            GivenWord.Needed(parsed, Title, "what it is for", "\"Ride-on machine, hydraulic units\"")
        );
        var machines = gathered.Each(
            parsed.GetValue(Machine),
            text => new Id<MachineVisit>(GivenPerson.Identified(Machine.Name, text))
        );
        if (parsed.GetValue(Machine) is null or [])
        {
            gathered.Add(
                $"{Machine.Name} is not given: which machines it covers; accepted: `{Machine.Name} M-01`"
            );
        }

        var place = gathered.Of(() =>
            parsed.GetValue(Place) is { } given
                ? GivenWord.Of<WorkPlace>(Place.Name, given)
                : WorkPlace.OnMachine
        );
        var from = gathered.Of(() =>
            GivenValue.Day(parsed, From)
            ?? throw new InputException(
                $"{From.Name} is not given: the first day in force; accepted: `{From.Name} 2027-03-01`"
            )
        );
        var runDown = gathered.Of(() => Seconds(parsed));
        var replaced = gathered.Of(() =>
            parsed.GetValue(Replaces) is { } given ? Standing(given, loaded) : null
        );
        var hasChanged = gathered.Of(() => GivenEntry.Flag(parsed, StepsChanged));
        if (parsed.GetValue(Replaces) is not null && parsed.GetValue(StepsChanged) is null)
        {
            gathered.Add(
                $"{StepsChanged.Name} is not given: whether energy is controlled otherwise than before; accepted: `{StepsChanged.Name} yes` or `{StepsChanged.Name} no`"
            );
        }

        var controls = new MachineControls(
            Stated(parsed, gathered, Key),
            Stated(parsed, gathered, Brake),
            Stated(parsed, gathered, Lowering),
            Stated(parsed, gathered, Drive)
        );
        var sources = SourceMembers.With([], [.. GivenEntry.Sources(parsed, gathered)], out var problems);
        gathered.Add(problems);
        gathered.End(loaded.Folder);
        var procedure = new Procedure
        {
            Id = new(id!),
            Title = title!,
            Machines = [.. machines],
            Place = place,
            Sources = sources,
            Controls = controls,
            From = from,
            RunDownSeconds = runDown,
            ControlStepsChanged = hasChanged ?? false,
        };
        return AuthoringPrint.Write(
            session,
            loaded.Folder,
            NewProcedure.Run(loaded, procedure, replaced),
            $"{procedure.Id}: in force from {from.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)} for {string.Join(", ", procedure.Machines)}",
            "it is as good as what it was written from: the machine's own manual, local codes and licensed practice come before it",
            $"not stated, and told on each job until it is: its inspection (`inspection` and `inspectionDue` in the file){(runDown is null ? ", how long what turns takes to come to rest (`runDownSeconds`)" : "")}; tasks on the running reel, such as lapping, are approved for nobody (`energisedTasks`)"
        );
    }

    private static Placed<Procedure> Standing(string id, LoadedRules loaded) =>
        loaded.Library.Procedures.FirstOrDefault(one => one.Value.Id.Text == id)
        ?? throw new InputException(
            $"{Replaces.Name}: there is no procedure `{id}`; accepted: {(loaded.Library.Procedures.IsEmpty ? "none stands yet" : string.Join(", ", loaded.Library.Procedures.Select(one => one.Value.Id.Text).Order(StringComparer.Ordinal)))}"
        );

    private static int? Seconds(ParseResult parsed) =>
        parsed.GetValue(RunDown) is not { } text ? null
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
        && seconds is > 0 and <= RunDownMost
            ? seconds
        : throw new InputException(
            $"{RunDown.Name}: `{text}` is no number of seconds; accepted: 1 to {RunDownMost}"
        );

    // A step for a control that the machine has is asked for: which it has is said, and not supposed.
    private static bool Stated(ParseResult parsed, Gathered gathered, Option<string?> option) =>
        gathered.Of(() =>
            GivenEntry.Flag(parsed, option)
            ?? throw new InputException(
                $"{option.Name} is not given: whether the machine has it; accepted: `{option.Name} yes` or `{option.Name} no`"
            )
        );

    private static Option<string?> Control(string name, string what) =>
        GivenEntry.One(name, $"Whether the machine {what}: yes or no.", "WORD");
}
