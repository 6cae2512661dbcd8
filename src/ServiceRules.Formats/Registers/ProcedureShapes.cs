using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>The written make-safe procedure of a machine, a pedestrian machine or a bench.</summary>
internal static class ProcedureShapes
{
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
                    Shape.List(SourceShapes.Source, 0, FormatLimits.Words),
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
                var inspection = o.Optional(
                    "inspection",
                    InspectionShapes.Inspection,
                    "the certificate of the last periodic inspection",
                    p => p.Inspection
                );
                var changed = o.Defaulted(
                    "controlStepsChanged",
                    Shape.Flag,
                    false,
                    "whether this revision changed how energy is controlled",
                    p => p.ControlStepsChanged
                );
                var runDown = o.Optional(
                    "runDownSeconds",
                    Shape.Whole(1, 60 * 60),
                    "how many seconds what turns takes to come to rest once the machine is stopped, at the least; left out: not stated",
                    p => p.RunDownSeconds
                );
                var energised = o.Items(
                    "energisedTasks",
                    InspectionShapes.Energised,
                    FormatLimits.Words,
                    "tasks that are approved on the live machine",
                    p => p.EnergisedTasks
                );
                var tests = o.Items(
                    "testMeasures",
                    Choices.Measure,
                    FormatLimits.Words,
                    "what must be in place before the machine is run for a test; left out: one measure at least that keeps people from what turns",
                    p => p.TestMeasures
                );
                var tools = o.Items(
                    "blockageTools",
                    Terms.Sentence,
                    FormatLimits.Words,
                    "tools that keep hands out of a blocked reel, as entries name them; left out: those that are common practice",
                    p => p.BlockageTools
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
                o.Check(
                    v =>
                        v.Get(inspection) is not { } certificate
                        || v.Get(inspected) is not { } day
                        || certificate.On == day,
                    inspection,
                    "the certificate is of another day than `inspectedOn`",
                    "one day in both, or one of the two"
                );
                o.Check(
                    v =>
                        v.Get(inspection) is not { } certificate
                        || v.Get(due) is not { } next
                        || certificate.On <= next,
                    due,
                    "due before it was done",
                    "the day of the inspection or later"
                );
                o.Check(
                    v => v.Get(energised).DistinctBy(one => one.Task).Count() == v.Get(energised).Length,
                    energised,
                    "a task stands twice",
                    "each task once"
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
                    Inspection = v.Get(inspection),
                    ControlStepsChanged = v.Get(changed),
                    RunDownSeconds = v.Get(runDown),
                    EnergisedTasks = v.Get(energised),
                    TestMeasures = v.Get(tests),
                    BlockageTools = v.Get(tools),
                };
            }
        );
}
