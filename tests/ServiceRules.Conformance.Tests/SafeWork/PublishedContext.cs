using System.Collections.Immutable;
using System.Text.Json.Nodes;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using static ServiceRules.Conformance.Tests.SafeWork.PublishedTimeline;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>The registers beside a published timeline as those of a site.</summary>
internal static class PublishedContext
{
    public static AssessmentContext Of(JsonObject around)
    {
        JsonNode machine = around["machine"]!;
        Id<MachineVisit> id = new(Text(machine, "id")!);
        ImmutableArray<EnergySource> sources =
        [
            .. machine["energy_sources"]!.AsArray().Select(each => Source(each!)),
        ];
        return new AssessmentContext
        {
            Site = "Invented site of the published timelines",
            Jurisdictions = [Jurisdiction],
            Zone = NewYork(),
            Machines = [new(id, "Machine of the timeline", sources)],
            Procedures = around["procedure"] is { } procedure
                ? [Written(procedure, around, id, sources)]
                : [],
            People = [.. around["people"]!.AsArray().Select(each => Person(each!))],
            Locks =
            [
                // A few locks belong to nobody in the same register, which a site's registers may not say; none is used.
                .. around["locks"]!
                    .AsArray()
                    .Select(each => Lock(each!))
                    .Where(held => IsKnown(held, around)),
                .. (around["tags"]?.AsArray() ?? []).Select(each => Tag(each!)),
            ],
            LockStyle = Text(around, "lock_style_standard"),
            RemovalException = around["removal_exception_procedure"] is { } removal
                ? new(Text(removal, "id")!, People(removal["trained"]))
                : null,
            Attendance =
            [
                .. from each in around["attendance"]?.AsArray() ?? []
                select new Attendance(
                    new(Text(each, "actor")!),
                    Time(Text(each, "from")!),
                    Time(Text(each, "to")!)
                ),
            ],
            Elsewhere =
            [
                .. from each in around["open_elsewhere"]?.AsArray() ?? []
                select new LockElsewhere(
                    new(Text(each, "lock")!),
                    new(Text(each, "machine")!),
                    Time(Text(each, "from")!),
                    Text(each, "to") is { } until ? Time(until) : null
                ),
            ],
        };
    }

    private static EnergySource Source(JsonNode told) =>
        new()
        {
            Id = new(Text(told, "source")!),
            Title = Text(told, "source")!.Replace('_', ' '),
            Isolator = Text(told, "isolator"),
            Lockable = IsTrue(told, "lockable"),
            Stored = IsTrue(told, "stored"),
            Reaccumulates = IsTrue(told, "reaccumulates"),
            RecheckMinutes = told["recheck_minutes"]?.GetValue<int>(),
            Release = IsTrue(told, "stored") ? "as the procedure says" : null,
            Proof = "tried from the operator's position",
        };

    private static Procedure Written(
        JsonNode told,
        JsonObject around,
        Id<MachineVisit> machine,
        ImmutableArray<EnergySource> sources
    )
    {
        ImmutableArray<string> covers = Texts(told["covers"]);
        return new()
        {
            Id = new(Text(told, "id")!),
            Title = "Procedure of the timeline",
            Machines = [machine],
            Place = WorkPlace.OnMachine,
            Sources = [.. sources.Where(source => covers.Contains(source.Id.Text))],
            Controls = new(Key: false, ParkingBrake: false, LoweringUnits: false, ReelDrive: false),
            From = Day(told, "effective"),
            Until = Day(told, "withdrawn"),
            ControlStepsChanged = IsTrue(told, "control_steps_changed"),
            Inspection = around["inspection"] is { } inspection ? Inspected(inspection) : null,
            EnergisedTasks = around["energised_task"] is { } task ? [Energised(task)] : [],
        };
    }

    private static ProcedureInspection Inspected(JsonNode told) =>
        new(
            Day(told, "date")!.Value,
            Text(told, "inspector") is { } inspector ? new Id<Participant>(inspector) : null,
            Text(told, "machine") is { } machine ? new Id<MachineVisit>(machine) : null,
            People(told["employees"]),
            People(told["procedure_users"]),
            IsTrue(told, "tag_limits_reviewed"),
            [
                .. from finding in told["findings"]!.AsArray()
                select new InspectionFinding(
                    Text(finding, "id")!,
                    Text(finding, "about") is { } about ? new Id<Participant>(about) : null,
                    Day(finding, "raised")!.Value,
                    null,
                    Day(finding, "closed")
                ),
            ]
        );

    private static EnergisedTask Energised(JsonNode told) =>
        new(
            ServiceTask.Lap,
            Text(told, "approved_by") is { } approver ? new Id<Participant>(approver) : null,
            [.. Texts(told["measures"]).Select(PublishedEvents.Measure)],
            "as the procedure says",
            null,
            null
        );

    private static RegisteredPerson Person(JsonNode told)
    {
        JsonNode? training = told["training"];
        return new(new(Text(told, "id")!), Text(told, "role") == "authorised", Day(training, "date"), null)
        {
            Employer = Text(told, "employer") == "contractor" ? Employer.Outside : Employer.Site,
            Crew = Text(told, "crew"),
            Covers = [.. Texts(training?["covers"]).Select(source => new Id<EnergySource>(source))],
            StatesCovers = training?["covers"] is not null,
            TagLimitsOn = Day(training, "tag_limits"),
            InstructedOn = Day(told["instruction"], "date"),
        };
    }

    private static bool IsKnown(RegisteredLock held, JsonObject around) =>
        held.Owner is not { } owner
        || around["people"]!.AsArray().Any(person => Text(person, "id") == owner.Text);

    private static RegisteredLock Lock(JsonNode told) =>
        new(
            new(Text(told, "lock")!),
            Text(told, "owner") is { } owner and not ("" or "job") ? new Id<Participant>(owner) : null
        )
        {
            Use = Text(told, "use")!,
            Style = Text(told, "style"),
        };

    private static RegisteredLock Tag(JsonNode told) =>
        new(new(Text(told, "tag")!), null) { IsTag = true, Legend = Text(told, "legend") };

    private static ImmutableArray<Id<Participant>> People(JsonNode? told) =>
        [.. Texts(told).Select(person => new Id<Participant>(person))];

    private static SiteZone NewYork() =>
        SiteZone
            .Of(
                "America/New_York",
                "2025b",
                -300,
                [Clocks("2025-03-09T07:00:00Z", -240), Clocks("2025-11-02T06:00:00Z", -300)]
            )
            .TryGet(out SiteZone? zone, out _)
            ? zone
            : throw new InvalidDataException("the zone is refused");

    private static ZoneTransition Clocks(string at, int minutes) =>
        new(((RecordedTime.Instant)Time(at)).Moment, minutes);
}
