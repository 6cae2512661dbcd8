using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>The written make-safe procedure of a machine, a pedestrian machine or a bench.</summary>
internal static class ProcedureShapes
{
    private static readonly JsonShape<Id<EnergySource>> SourceName = Shape
        .Text(
            1,
            64,
            "[a-z][a-z0-9]*(_[a-z0-9]+)*",
            "small letters and digits joined by underscores",
            "engine_start"
        )
        .AsParsed(
            text =>
                Terms.Kept(
                    new Id<EnergySource>(text),
                    text is not ("all" or "group_box"),
                    "this word has a meaning of its own in events",
                    "another name"
                ),
            id => id.Text
        );

    private static readonly ObjectShape<EnergySource> SourceObject = Shape.Object<EnergySource>(
        "energy-source",
        "One source of hazardous energy, and how it is isolated and proven dead.",
        o =>
        {
            var id = o.Required("id", SourceName, "its name in events", s => s.Id);
            var title = o.Required("title", Terms.Title, "plain name", s => s.Title);
            var isolator = o.Optional(
                "isolator",
                Terms.Title,
                "isolating device; left out: nothing to switch off, only to release or block",
                s => s.Isolator
            );
            var lockable = o.Defaulted(
                "lockable",
                Shape.Flag,
                false,
                "whether the isolating device takes a lock",
                s => s.Lockable
            );
            var stored = o.Defaulted(
                "stored",
                Shape.Flag,
                false,
                "whether energy stays stored after isolation",
                s => s.Stored
            );
            var recheck = o.Optional(
                "recheckMinutes",
                Shape.Whole(1, 24 * 60),
                "rechecked at least this often while work goes on, in minutes",
                s => s.RecheckMinutes
            );
            var release = o.Optional(
                "release",
                Terms.Sentence,
                "how it is dissipated or restrained",
                s => s.Release
            );
            var proof = o.Required("proof", Terms.Sentence, "how zero energy is proven", s => s.Proof);
            o.Check(
                v => !v.Get(lockable) || v.Get(isolator) is not null,
                lockable,
                "nothing here takes a lock",
                "an `isolator` beside it"
            );
            o.Check(
                v => !v.Get(stored) || v.Get(release) is not null,
                stored,
                "stored energy needs `release` beside it",
                "how it is dissipated or restrained"
            );
            return v => new EnergySource
            {
                Id = v.Get(id),
                Title = v.Get(title),
                Isolator = v.Get(isolator),
                Lockable = v.Get(lockable),
                Stored = v.Get(stored),
                RecheckMinutes = v.Get(recheck),
                Release = v.Get(release),
                Proof = v.Get(proof),
            };
        }
    );

    private static readonly ObjectShape<MachineControls> ControlsObject = Shape.Object<MachineControls>(
        "machine-controls",
        "Which make-safe controls the machine has.",
        o =>
        {
            var key = o.Required("key", Shape.Flag, "whether it has a key", c => c.Key);
            var brake = o.Required(
                "parkingBrake",
                Shape.Flag,
                "whether it has a parking brake",
                c => c.ParkingBrake
            );
            var lowering = o.Required(
                "loweringUnits",
                Shape.Flag,
                "whether its units lower",
                c => c.LoweringUnits
            );
            var drive = o.Required(
                "reelDrive",
                Shape.Flag,
                "whether its reel drive can be disengaged",
                c => c.ReelDrive
            );
            return v => new MachineControls(v.Get(key), v.Get(brake), v.Get(lowering), v.Get(drive));
        }
    );

    public static ObjectShape<Procedure> Procedure { get; } =
        Shape.Object<Procedure>(
            "procedure",
            "The written make-safe procedure of a machine, a pedestrian machine or a bench.",
            o =>
            {
                var id = o.Required(
                    "id",
                    Terms.NewId<Procedure>("procedure"),
                    "identity and revision",
                    p => p.Id
                );
                var title = o.Required(
                    "title",
                    Terms.Title,
                    "plain name of the kind of machine",
                    p => p.Title
                );
                var machines = o.Required(
                    "machines",
                    Shape.List(Terms.Id<MachineVisit>(), 1, FormatLimits.Register),
                    "machines that it covers",
                    p => p.Machines
                );
                var place = o.Required(
                    "place",
                    Choices.Place,
                    "for units on the machine or on the bench",
                    p => p.Place
                );
                var sources = o.Required(
                    "sources",
                    Shape.List(SourceObject, 0, FormatLimits.Words),
                    "what could move or hurt",
                    p => p.Sources
                );
                var controls = o.Required(
                    "controls",
                    ControlsObject,
                    "what the machine has",
                    p => p.Controls
                );
                var from = o.Optional(
                    "from",
                    Terms.Day,
                    "first day in force; left out: since always",
                    p => p.From
                );
                var until = o.Optional(
                    "until",
                    Terms.Day,
                    "last day in force; left out: until replaced",
                    p => p.Until
                );
                var inspected = o.Optional(
                    "inspectedOn",
                    Terms.Day,
                    "date of the last periodic inspection",
                    p => p.InspectedOn
                );
                var due = o.Optional(
                    "inspectionDue",
                    Terms.Day,
                    "when the next periodic inspection is due",
                    p => p.InspectionDue
                );
                o.Check(
                    v => v.Get(place) is WorkPlace.OnBench || !v.Get(sources).IsEmpty,
                    sources,
                    "a machine without any source cannot be made safe",
                    "at least one source"
                );
                o.Check(
                    v => v.Get(sources).DistinctBy(source => source.Id).Count() == v.Get(sources).Length,
                    sources,
                    "a source stands twice",
                    "each source once"
                );
                o.Check(
                    v => v.Get(from) is not { } first || v.Get(until) is not { } last || first <= last,
                    until,
                    "the last day is before the first",
                    "`from` or later"
                );
                o.Check(
                    v => v.Get(inspected) is not { } first || v.Get(due) is not { } next || first <= next,
                    due,
                    "due before it was done",
                    "`inspectedOn` or later"
                );
                return v => new Procedure
                {
                    Id = v.Get(id),
                    Title = v.Get(title),
                    Machines = v.Get(machines),
                    Place = v.Get(place),
                    Sources = v.Get(sources),
                    Controls = v.Get(controls),
                    From = v.Get(from),
                    Until = v.Get(until),
                    InspectedOn = v.Get(inspected),
                    InspectionDue = v.Get(due),
                };
            }
        );
}
