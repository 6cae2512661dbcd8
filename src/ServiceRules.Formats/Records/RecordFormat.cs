using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>
/// The service record as a document. A later version is a format of its own; records of earlier versions are read by
/// the format they name and never rewritten, since what was signed is the bytes that were entered.
/// </summary>
public static class RecordFormat
{
    private static readonly ObjectShape<ServiceRecord> Root = Shape.Object<ServiceRecord>(
        "service-record",
        "One visit to one machine, or to units on the bench: what was written down, not what follows from it.",
        o =>
        {
            var id = o.Required("id", Terms.Id<ServiceRecord>(), "the record's identity", r => r.Id);
            var date = o.Required("date", Terms.Day, "the day of the job in the site's zone", r => r.Date);
            var place = o.Defaulted(
                "place",
                Choices.Place,
                WorkPlace.OnMachine,
                "where the units were worked on",
                r => r.Place
            );
            var setting = o.Defaulted(
                "setting",
                Shape.Choice<WorkSetting>("In what setting the work was done."),
                WorkSetting.Workshop,
                "whether the machine was in the workshop or in use",
                r => r.Setting
            );
            var hands = o.Optional(
                "handsInBladeZone",
                Shape.Flag,
                "whether hands went into the reach of the blades; left out: they did",
                r => r.HandsInBladeZone
            );
            var electrical = o.Defaulted(
                "electricalWork",
                Shape.Flag,
                false,
                "whether work on electrical parts belonged to the job",
                r => r.ElectricalWork
            );
            var electricalRecord = o.Optional(
                "electricalRecord",
                Terms.Sentence,
                "where the electrical work is recorded",
                r => r.ElectricalRecord
            );
            var temperature = o.Optional(
                "temperature",
                Terms.Temperature,
                "temperature of the workshop; left out: nothing is claimed of it",
                r => r.Temperature
            );
            var machine = o.Required(
                "machine",
                JobShapes.Machine,
                "the machine that the units belong to",
                r => r.Machine
            );
            var tasks = o.Required(
                "tasks",
                Shape.List(Choices.Task, 1, FormatLimits.Words),
                "what the visit was for",
                r => r.Tasks
            );
            var complaint = o.Optional("complaint", Terms.Note, "the operator's words", r => r.Complaint);
            var requested = o.Items(
                "requested",
                JobShapes.Requested,
                FormatLimits.JobParts,
                "what was asked for on the job card",
                r => r.Requested
            );
            var people = o.Required(
                "people",
                Shape.List(JobShapes.Person, 1, FormatLimits.JobParts),
                "everybody with a part in the job",
                r => r.People
            );
            var instruments = o.Items(
                "instruments",
                InstrumentShapes.Instrument,
                FormatLimits.JobParts,
                "instruments used",
                r => r.Instruments
            );
            var timeline = o.Items(
                "timeline",
                TimelineShapes.Event,
                FormatLimits.Events,
                "make-safe and work events in the order they were entered",
                r => r.Timeline
            );
            var units = o.Required(
                "units",
                Shape.List(UnitShapes.Unit, 1, FormatLimits.Units),
                "the cutting units",
                r => r.Units
            );
            var photos = o.Items(
                "photos",
                JobShapes.Photo,
                FormatLimits.Photos,
                "photos, by content",
                r => r.Photos
            );
            var signOff = o.Optional(
                "signOff",
                JobShapes.SignOff,
                "who says the job is done; left out while it is open",
                r => r.SignOff
            );
            var releases = o.Items(
                "releases",
                JobShapes.Release,
                FormatLimits.JobParts,
                "releases of unproven findings by a second person",
                r => r.Releases
            );
            var followUp = o.Optional(
                "followUp",
                JobShapes.FollowUp,
                "re-check after first use",
                r => r.FollowUp
            );
            o.Needs(followUp, signOff);
            o.Needs(electricalRecord, electrical);
            o.Check(
                v => v.Get(place) is WorkPlace.OnBench || AreDistinct(Positions(v.Get(units))),
                units,
                "two units stand at the same position",
                "each position once"
            );
            return v => new ServiceRecord
            {
                Id = v.Get(id),
                Date = v.Get(date),
                Place = v.Get(place),
                Setting = v.Get(setting),
                HandsInBladeZone = v.Get(hands),
                ElectricalWork = v.Get(electrical),
                ElectricalRecord = v.Get(electricalRecord),
                Temperature = v.Get(temperature),
                Machine = v.Get(machine),
                Tasks = v.Get(tasks),
                Complaint = v.Get(complaint),
                Requested = v.Get(requested),
                People = v.Get(people),
                Instruments = v.Get(instruments),
                Timeline = v.Get(timeline),
                Units = v.Get(units),
                Photos = v.Get(photos),
                SignOff = v.Get(signOff),
                Releases = v.Get(releases),
                FollowUp = v.Get(followUp),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<ServiceRecord> Current { get; } =
        new("service-record", 1, ReadLimits.Record, Root);

    private static int[] Positions(IEnumerable<UnitWork> units) =>
        [.. units.Where(unit => unit.Position is not null).Select(unit => unit.Position!.Value)];

    private static bool AreDistinct(int[] positions) => positions.Distinct().Count() == positions.Length;
}
