using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>Machines of the site, who was there when, and what hung or worked at another machine.</summary>
internal static class WhereaboutsShapes
{
    private const int SecondEnd = 19;

    public static ObjectShape<RegisteredMachine> Machine { get; } =
        Shape.Object<RegisteredMachine>(
            "registered-machine",
            "A machine in the site's register, with every source of energy it has.",
            o =>
            {
                var id = o.Required("id", Terms.NewId<MachineVisit>("machine"), "the machine", m => m.Id);
                var title = o.Required("title", Terms.Title, "plain name", m => m.Title);
                var sources = o.Required(
                    "sources",
                    Shape.List(SourceShapes.Source, 1, FormatLimits.Words),
                    "what could move or hurt",
                    m => m.Sources
                );
                var areas = o.Items(
                    "areas",
                    Terms.Title,
                    FormatLimits.Words,
                    "the areas that it mows, as setting orders name them; left out: not stated",
                    m => m.Areas
                );
                var units = o.Optional(
                    "units",
                    Shape.Whole(1, FormatLimits.Units),
                    "how many cutting units it has; left out: not stated",
                    m => m.Units
                );
                o.Check(
                    v => v.Get(sources).DistinctBy(source => source.Id).Count() == v.Get(sources).Length,
                    sources,
                    "a source stands twice",
                    "each source once"
                );
                return v => new RegisteredMachine(v.Get(id), v.Get(title), v.Get(sources))
                {
                    Areas = v.Get(areas),
                    Units = v.Get(units),
                };
            }
        );

    public static ObjectShape<RemovalException> RemovalException { get; } =
        Shape.Object<RemovalException>(
            "removal-exception",
            "The site's written way to take off the device of somebody who is not there.",
            o =>
            {
                var id = o.Required("id", Terms.Identity, "its identity, as events name it", e => e.Id);
                var trained = o.Items(
                    "trained",
                    Terms.Id<Participant>(),
                    FormatLimits.Register,
                    "who was trained in it",
                    e => e.Trained
                );
                return v => new RemovalException(v.Get(id), v.Get(trained));
            }
        );

    public static ObjectShape<Attendance> Attendance { get; } =
        Shape.Object<Attendance>(
            "attendance",
            "When a person was on the site.",
            o =>
            {
                var person = o.Required("person", Terms.Id<Participant>(), "who", a => a.Person);
                var from = o.Required("from", Terms.Time, "when they came", a => a.From);
                var until = o.Required("until", Terms.Time, "when they left", a => a.Until);
                o.Check(
                    v => !IsBefore(v.Get(until), v.Get(from)),
                    until,
                    "they left before they came",
                    "a time after `from`"
                );
                return v => new Attendance(v.Get(person), v.Get(from), v.Get(until));
            }
        );

    public static JsonShape<Elsewhere> Elsewhere { get; } =
        Shape.Keyed(
            "elsewhere",
            "A lock on, or a person at, another machine, as other records tell.",
            Shape.Keyed<Elsewhere, LockElsewhere>(
                "lock",
                Shape.Object<LockElsewhere>(
                    "lock-elsewhere",
                    "A lock or tag that hung on another machine.",
                    o =>
                    {
                        var device = o.Required(
                            "lock",
                            Terms.Id<LockDevice>(),
                            "which lock or tag",
                            e => e.Lock
                        );
                        var place = OtherPlace(o);
                        return v => new LockElsewhere(
                            v.Get(device),
                            v.Get(place.Machine),
                            v.Get(place.From),
                            v.Get(place.Until)
                        )
                        {
                            Record = v.Get(place.Record),
                        };
                    }
                )
            ),
            Shape.Keyed<Elsewhere, PersonElsewhere>(
                "person",
                Shape.Object<PersonElsewhere>(
                    "person-elsewhere",
                    "A person with hands in another machine.",
                    o =>
                    {
                        var person = o.Required("person", Terms.Id<Participant>(), "who", e => e.Person);
                        var place = OtherPlace(o);
                        return v => new PersonElsewhere(
                            v.Get(person),
                            v.Get(place.Machine),
                            v.Get(place.From),
                            v.Get(place.Until)
                        )
                        {
                            Record = v.Get(place.Record),
                        };
                    }
                )
            )
        );

    private static (
        Slot<Domain.Id<MachineVisit>> Machine,
        Slot<RecordedTime> From,
        Slot<RecordedTime?> Until,
        Slot<Domain.Id<ServiceRecord>?> Record
    ) OtherPlace<T>(ObjectMembers<T> members)
        where T : Elsewhere
    {
        var machine = members.Required(
            "machine",
            Terms.Id<MachineVisit>(),
            "at which machine",
            e => e.Machine
        );
        var from = members.Required("from", Terms.Time, "since when", e => e.From);
        var until = members.Optional(
            "until",
            Terms.Time,
            "until when; left out: no end is shown",
            e => e.Until
        );
        members.Check(
            v => v.Get(until) is not { } end || !IsBefore(end, v.Get(from)),
            until,
            "this ends before it begins",
            "a time after `from`, or none"
        );
        var record = members.Optional(
            "record",
            Terms.Id<ServiceRecord>(),
            "the record that tells it",
            e => e.Record
        );
        return (machine, from, until, record);
    }

    // Of a time with its offset and one without, neither is known to be the earlier.
    private static bool IsBefore(RecordedTime one, RecordedTime other) =>
        (one, other) switch
        {
            (RecordedTime.Instant first, RecordedTime.Instant second) => first.Moment < second.Moment,
            (RecordedTime.LocalTime first, RecordedTime.LocalTime second) => string.CompareOrdinal(
                first.Text[..SecondEnd],
                second.Text[..SecondEnd]
            ) < 0,
            _ => false,
        };
}
