using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// One of the thirty invented timelines of tests/reference/safety/timelines, told again as a service record in its
/// context. Nothing is added but what a record needs and a timeline does not tell: a unit of which nothing is noted, and
/// a signature at the end.
/// </summary>
internal sealed record PublishedTimeline(
    string Name,
    ServiceRecord Record,
    AssessmentContext Context,
    ImmutableArray<string> Breaches,
    ImmutableArray<string> Unproven
)
{
    /// <summary>The pack whose clauses the timelines were written against.</summary>
    public const string Jurisdiction = "us-29-cfr-1910-147";

    public static IEnumerable<string> Names() =>
        Directory
            .EnumerateFiles(ReferenceFiles.At("safety", "timelines"), "*.json")
            .Select(file => Path.GetFileName(file)[..3])
            .Order(StringComparer.Ordinal);

    public static PublishedTimeline Read(string name)
    {
        string kind = name[0] == 'C' ? "compliant" : "breaching";
        JsonObject told = JsonNode
            .Parse(ReferenceFiles.ReadText("safety", "timelines", $"{name}-{kind}.json"))!
            .AsObject();
        JsonObject around = told["context"]!.AsObject();
        ImmutableArray<TimelineEvent> events = PublishedEvents.Of(told["events"]!.AsArray(), around);
        AssessmentContext context = PublishedContext.Of(around);
        return new(
            name,
            RecordOf(name, around, events, context),
            context,
            Texts(told["expected_breaches"]),
            Texts(told["expected_unproven"])
        );
    }

    public static string? Text(JsonNode? node, string member) =>
        node?[member] is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    public static bool IsTrue(JsonNode? node, string member) =>
        node?[member] is JsonValue value && value.TryGetValue(out bool flag) && flag;

    public static ImmutableArray<string> Texts(JsonNode? array) =>
        [.. (array?.AsArray() ?? []).Select(item => item!.GetValue<string>())];

    public static DateOnly? Day(JsonNode? node, string member) =>
        Text(node, member) is { } text ? DateOnly.Parse(text, CultureInfo.InvariantCulture) : null;

    public static RecordedTime Time(string text) =>
        RecordedTime.Parse(text).TryGet(out RecordedTime? time, out _)
            ? time
            : throw new InvalidDataException(text);

    private static ServiceRecord RecordOf(
        string name,
        JsonObject around,
        ImmutableArray<TimelineEvent> events,
        AssessmentContext context
    )
    {
        JsonNode job = around["job"]!;
        HashSet<Id<Participant>> workers =
        [
            .. events.Where(e => e.Kind == TimelineEventKind.WorkStarted).Select(e => e.Actor),
        ];
        return new ServiceRecord
        {
            Id = new(name),
            Date = context.Zone.DayOf(events[0].At),
            Machine = new(new(Text(around["machine"], "id")!), null, null),
            Setting = Text(job, "setting") == "in_use" ? WorkSetting.InUse : WorkSetting.Workshop,
            HandsInBladeZone = IsTrue(job, "hands_in_blade_zone"),
            Tasks = [TaskOf(Text(job, "task")!)],
            People = PeopleOf(around, events, workers),
            Timeline = events,
            Units =
            [
                new()
                {
                    Id = new("U-03-1"),
                    Sheet = "reel-125-9-510",
                    Entries = [],
                },
            ],
            SignOff = new(events.First(e => workers.Contains(e.Actor)).Actor, AfterAll(events, context.Zone)),
        };
    }

    private static ServiceTask TaskOf(string told) =>
        told switch
        {
            "backlapping" => ServiceTask.Lap,
            "remove_wire_from_reel" => ServiceTask.ClearBlockage,
            "brush_roller_scraper" => ServiceTask.DailyCheck,
            "reel_replacement" or "bearing_replacement" => ServiceTask.SeasonalOverhaul,
            _ => ServiceTask.FullService,
        };

    /// <summary>Whoever the timeline names, in the part that it shows them in.</summary>
    private static ImmutableArray<Participant> PeopleOf(
        JsonObject around,
        ImmutableArray<TimelineEvent> events,
        HashSet<Id<Participant>> workers
    )
    {
        HashSet<Id<Participant>> named =
        [
            .. events.Select(e => e.Actor),
            .. events.SelectMany(e => e.Others),
        ];
        return
        [
            .. from person in around["people"]!.AsArray()
            let id = new Id<Participant>(Text(person, "id")!)
            let role = Text(person, "role")
            where named.Contains(id) || role == "affected"
            select new Participant(
                id,
                workers.Contains(id) ? JobRole.Performs
                    : role == "affected" ? JobRole.Affected
                    : role == "supervisor" ? JobRole.Leads
                    : JobRole.Assists
            ),
        ];
    }

    private static RecordedTime AfterAll(ImmutableArray<TimelineEvent> events, SiteZone zone)
    {
        Moment last = events.Select(e => e.At).OfType<RecordedTime.Instant>().Max(at => at.Moment);
        return Time(zone.Print(last + TimeSpan.FromMinutes(5)));
    }
}
