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
                var timeline = o.Required(
                    "timeline",
                    Shape.List(Entry, 1, FormatLimits.Events),
                    "those of its entries that bear on this job",
                    r => r.Timeline
                );
                return v => new OtherRecord(v.Get(record), v.Get(machine), v.Get(signOff), v.Get(timeline));
            }
        );
}
