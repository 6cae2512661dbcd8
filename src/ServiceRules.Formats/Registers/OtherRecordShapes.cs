using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>What other records show that bears on a job.</summary>
internal static class OtherRecordShapes
{
    private static readonly ObjectShape<TimelineEvent> Entry = Shape.Object<TimelineEvent>(
        "other-entry",
        "One entry of another record, as far as it bears on this job.",
        o =>
        {
            var kind = o.Required("event", Choices.Event, "what happened", e => e.Kind);
            var at = o.Required("at", Terms.Time, "when", e => e.At);
            var actor = o.Required("by", Terms.Id<Participant>(), "who did it", e => e.Actor);
            var source = o.Optional("source", TimelineShapes.Source, "which energy source", e => e.Source);
            var device = o.Optional("lock", Terms.Id<LockDevice>(), "which lock or tag", e => e.Lock);
            var position = o.Optional(
                "position",
                Shape.Choice<IsolatorPosition>("Position of an isolator."),
                "position in which the isolator was left",
                e => e.Position
            );
            var isolator = o.Optional(
                "isolator",
                Terms.Title,
                "kind of isolator, or of the device",
                e => e.Isolator
            );
            var pressure = o.Optional(
                "pressure",
                Terms.Pressure,
                "a pressure read as proof",
                e => e.Pressure
            );
            var task = o.Optional(
                "task",
                Choices.Task,
                "which task a run of the machine is for",
                e => e.Task
            );
            var reason = o.Optional("reason", Terms.Sentence, "why", e => e.Reason);
            var exception = o.Optional(
                "exception",
                Terms.Sentence,
                "documented exception relied on",
                e => e.Exception
            );
            var others = o.Items(
                "others",
                Terms.Id<Participant>(),
                FormatLimits.JobParts,
                "other people concerned",
                e => e.Others
            );
            return v => new TimelineEvent
            {
                Kind = v.Get(kind),
                At = v.Get(at),
                Actor = v.Get(actor),
                Source = v.Get(source),
                Lock = v.Get(device),
                Position = v.Get(position),
                Isolator = v.Get(isolator),
                Pressure = v.Get(pressure),
                Task = v.Get(task),
                Reason = v.Get(reason),
                Exception = v.Get(exception),
                Others = v.Get(others),
            };
        }
    );

    private static readonly ObjectShape<SignOff> SignOff = Shape.Object<SignOff>(
        "other-sign-off",
        "Who said another job is done, and when.",
        o =>
        {
            var by = o.Required("by", Terms.Id<Participant>(), "who", s => s.By);
            var at = o.Required("at", Terms.Time, "when", s => s.At);
            return v => new SignOff(v.Get(by), v.Get(at));
        }
    );

    private static readonly ObjectShape<BenchTold> Bench = Shape.Object<BenchTold>(
        "other-bench-line",
        "One line of the bench log of another record, as far as it tells where hands were.",
        o =>
        {
            var unit = o.Required("unit", Terms.Id<UnitWork>(), "at which unit", b => b.Unit);
            var act = o.Required(
                "act",
                Shape.Choice<BenchAct>("What was done at a unit."),
                "what was done there",
                b => b.Act
            );
            var at = o.Required("at", Terms.Time, "when", b => b.At);
            var by = o.Required("by", Terms.Id<Participant>(), "by whom", b => b.By);
            return v => new BenchTold(v.Get(unit), v.Get(act), v.Get(at), v.Get(by));
        }
    );

    public static ObjectShape<OtherRecord> Record { get; } =
        Shape.Object<OtherRecord>(
            "other-record",
            "What another record shows that bears on this job.",
            o =>
            {
                var record = o.Required("record", Terms.Id<ServiceRecord>(), "which record", r => r.Record);
                var machine = o.Required(
                    "machine",
                    Terms.Id<MachineVisit>(),
                    "of which machine",
                    r => r.Machine
                );
                var signOff = o.Optional(
                    "signOff",
                    SignOff,
                    "who signed it off, and when; left out: it is open",
                    r => r.SignOff
                );
                var place = o.Defaulted(
                    "place",
                    Choices.Place,
                    WorkPlace.OnMachine,
                    "where it says that the work was done",
                    r => r.Place
                );
                var bench = o.Items(
                    "bench",
                    Bench,
                    FormatLimits.Units * FormatLimits.Entries,
                    "what its bench log alone tells of hands at a unit, or of a reel lapped",
                    r => r.Bench
                );
                var timeline = o.Required(
                    "timeline",
                    Shape.List(Entry, 0, FormatLimits.Events),
                    "those of its entries that bear on this job",
                    r => r.Timeline
                );
                return v => new OtherRecord(v.Get(record), v.Get(machine), v.Get(signOff), v.Get(timeline))
                {
                    Place = v.Get(place),
                    Bench = v.Get(bench),
                };
            }
        );
}
