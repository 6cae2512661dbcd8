using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.TestKit;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>
/// One of the thirty invented timelines of tests/reference/safety, whose breaches were written down by hand, row by row
/// of 29 CFR 1910.147, before this product existed.
/// </summary>
internal sealed record PublishedTimeline(
    SafetyCase Case,
    ImmutableArray<string> Breaches,
    ImmutableArray<string> Unproven
)
{
    public static PublishedTimeline Read(string id)
    {
        var kind = id[0] == 'C' ? "compliant" : "breaching";
        using var document = JsonDocument.Parse(
            ReferenceFiles.ReadText("safety", "timelines", $"{id}-{kind}.json")
        );
        var root = document.RootElement.Clone();
        var context = root.GetProperty("context");
        var entries = root.GetProperty("events")
            .EnumerateArray()
            .Select(entry => Entry(entry, context))
            .ToImmutableArray();
        var date = DateOnly.Parse(
            root.GetProperty("events")[0].GetProperty("t").GetString()![..10],
            CultureInfo.InvariantCulture
        );
        return new(
            new()
            {
                Date = date,
                Zone = NewYork(),
                Entries = entries,
                People = People(context, entries),
                Locks = [.. context.GetProperty("locks").EnumerateArray().Select(Lock)],
                Procedure = Machine(context.GetProperty("machine"), id),
                Register = [.. context.GetProperty("people").EnumerateArray().Select(Registered)],
                Recorded = record =>
                    record with
                    {
                        Setting =
                            Text(context.GetProperty("job"), "setting") == "in_use"
                                ? WorkSetting.InUse
                                : WorkSetting.Workshop,
                        Tasks =
                        [
                            Text(context.GetProperty("job"), "task") == "brush_roller_scraper"
                                ? ServiceTask.DailyCheck
                                : ServiceTask.FullService,
                        ],
                        HandsInBladeZone = context
                            .GetProperty("job")
                            .GetProperty("hands_in_blade_zone")
                            .GetBoolean(),
                    },
                Registered = registers => registers with { RemovalException = Exception(context) },
            },
            Texts(root.GetProperty("expected_breaches")),
            Texts(root.GetProperty("expected_unproven"))
        );
    }

    private static SiteZone NewYork() =>
        SiteZone
            .Of(
                "America/New_York",
                "2025b",
                -300,
                [
                    SafetyCase.Clocks("2025-03-09T07:00:00Z", -240),
                    SafetyCase.Clocks("2025-11-02T06:00:00Z", -300),
                ]
            )
            .OrThrow();

    private static TimelineEvent Entry(JsonElement entry, JsonElement context) =>
        new()
        {
            At = RecordedTime.Parse(Text(entry, "t")!).OrThrow(),
            Kind = TimelineLine.Kind(Text(entry, "event")!),
            Actor = new(Text(entry, "actor")!),
            Source = Text(entry, "source") is { } source ? TimelineLine.Reference(source) : null,
            Lock = Text(entry, "lock") is { } device ? new Id<LockDevice>(device) : null,
            EventId = Text(entry, "id"),
            Device = Text(entry, "device"),
            Sequence = entry.TryGetProperty("seq", out var sequence) ? sequence.GetInt32() : null,
            ReceivedAt = Text(entry, "recorded_at") is { } received
                ? RecordedTime.Parse(received).OrThrow()
                : null,
            Mark = Text(entry, "capture") is null ? EntryMark.AtTheTime : EntryMark.DeviceOffline,
            Isolator = Text(entry, "kind"),
            Position = Text(entry, "position") is { } position
                ? Enum.Parse<IsolatorPosition>(position, ignoreCase: true)
                : null,
            Reason = Text(entry, "reason"),
            Exception = Text(entry, "exception"),
            AtLockPoint = entry.TryGetProperty("at_lock_point", out var there) && there.GetBoolean(),
            ExtraMeasure = Text(entry, "extra_measure"),
            Claim = Claim(entry, context),
            Measures =
            [
                .. Names(entry, "measures")
                    .Select(name =>
                        Enum.Parse<ProtectiveMeasure>(
                            name.Replace("_", "", StringComparison.Ordinal),
                            ignoreCase: true
                        )
                    ),
            ],
            Count = entry.TryGetProperty("count", out var count) ? count.GetInt32() : null,
            Crews = [.. Names(entry, "crews")],
            Others =
            [
                .. new[] { "to", "with", "primary", "coordinator", "members", "owner" }
                    .SelectMany(name => Names(entry, name))
                    .Select(name => new Id<Participant>(name)),
            ],
        };

    private static ImmutableArray<Participant> People(
        JsonElement context,
        ImmutableArray<TimelineEvent> entries
    )
    {
        var workers = entries
            .Where(entry => entry.Kind == TimelineEventKind.WorkStarted)
            .Select(entry => entry.Actor)
            .ToHashSet();
        return
        [
            .. from person in context.GetProperty("people").EnumerateArray()
            let id = new Id<Participant>(Text(person, "id")!)
            let role = Text(person, "role")
            where workers.Contains(id) || role is "affected" or "supervisor"
            select new Participant(
                id,
                workers.Contains(id) ? JobRole.Performs
                    : role == "affected" ? JobRole.Affected
                    : JobRole.Leads
            ),
        ];
    }

    private static ExemptionClaim? Claim(JsonElement entry, JsonElement context)
    {
        if (Text(entry, "exemption") is not { } kind)
        {
            return null;
        }

        var facts = context.TryGetProperty("exemption_facts", out var stated) ? stated : default;
        return new(
            Enum.Parse<ExemptionKind>(kind.Replace("_", "", StringComparison.Ordinal), ignoreCase: true),
            Fact("routine"),
            Fact("repetitive"),
            Fact("integral"),
            null,
            null,
            null
        );

        bool? Fact(string name) =>
            facts.ValueKind == JsonValueKind.Object && facts.TryGetProperty(name, out var fact)
                ? fact.GetBoolean()
                : null;
    }

    private static RegisteredPerson Registered(JsonElement person) =>
        new(new(Text(person, "id")!), Text(person, "role") == "authorised", null, null)
        {
            Crew = Text(person, "crew"),
            Employer = Text(person, "employer") == "contractor" ? Employer.Outside : Employer.Site,
        };

    private static RemovalException? Exception(JsonElement context) =>
        context.TryGetProperty("removal_exception_procedure", out var written)
            ? new(
                Text(written, "id")!,
                [.. Names(written, "trained").Select(name => new Id<Participant>(name))]
            )
            : null;

    private static RegisteredLock Lock(JsonElement device) =>
        new(
            new(Text(device, "lock")!),
            Text(device, "owner") is { } owner and not "job" ? new Id<Participant>(owner) : null
        );

    private static Procedure Machine(JsonElement machine, string id) =>
        SafetyCase.RideOn with
        {
            Sources =
            [
                .. machine
                    .GetProperty("energy_sources")
                    .EnumerateArray()
                    .Select(source =>
                        SafetyCase.Source(
                            Text(source, "source")!,
                            Text(source, "source")!,
                            Text(source, "isolator"),
                            // A plug kept in sight and reach needs no lock: paragraph (a)(2)(iii)(A).
                            source.GetProperty("lockable").GetBoolean()
                                && id != "C11",
                            source.GetProperty("stored").GetBoolean(),
                            source.TryGetProperty("recheck_minutes", out var minutes)
                            && minutes.ValueKind == JsonValueKind.Number
                                ? minutes.GetInt32()
                                : null
                        )
                    ),
            ],
        };

    private static string? Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String
            ? value.GetString()
            : null;

    private static IEnumerable<string> Names(JsonElement element, string name) =>
        !element.TryGetProperty(name, out var value) ? []
        : value.ValueKind == JsonValueKind.String ? [value.GetString()!]
        : value.ValueKind == JsonValueKind.Array ? value.EnumerateArray().Select(item => item.GetString()!)
        : [];

    private static ImmutableArray<string> Texts(JsonElement array) =>
        [.. array.EnumerateArray().Select(item => item.GetString()!)];
}
