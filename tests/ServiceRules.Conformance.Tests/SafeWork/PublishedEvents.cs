using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using static ServiceRules.Conformance.Tests.SafeWork.PublishedTimeline;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>The events of a published timeline as those of a record.</summary>
internal static class PublishedEvents
{
    private static readonly string[] OtherPeople =
    [
        "to",
        "with",
        "primary",
        "coordinator",
        "members",
        "owner",
    ];

    public static ImmutableArray<TimelineEvent> Of(JsonArray events, JsonObject around)
    {
        ImmutableArray<TimelineEvent> told = [.. events.Select(each => Of(each!, around))];
        JsonNode? excepted = around["no_procedure_exception"];
        return IsTrue(excepted, "claimed") ? told.Insert(1, WithoutProcedure(told[0], excepted!)) : told;
    }

    private static TimelineEvent Of(JsonNode told, JsonObject around) =>
        new()
        {
            At = Time(Text(told, "t")!),
            Kind = Kind(Text(told, "event")!),
            Actor = new(Text(told, "actor")!),
            Source = Text(told, "source") switch
            {
                null => null,
                "all" => new SourceReference.All(),
                "group_box" => new SourceReference.GroupBox(),
                { } source => new SourceReference.One(new(source)),
            },
            Lock = Text(told, "lock") is { } device ? new Id<LockDevice>(device) : null,
            EventId = Text(told, "id"),
            Device = Text(told, "device"),
            Sequence = told["seq"]?.GetValue<int>(),
            ReceivedAt = Text(told, "recorded_at") is { } received ? Time(received) : null,
            Mark = Text(told, "capture") is null ? EntryMark.AtTheTime : EntryMark.DeviceOffline,
            Isolator = Text(told, "kind"),
            Position = Text(told, "position") is { } position
                ? Enum.Parse<IsolatorPosition>(position, ignoreCase: true)
                : null,
            Pressure = told["value"] is { } value ? PressureOf(value, Text(told, "unit")!) : null,
            Method = Text(told, "method") ?? Text(told, "channel") ?? Text(told, "tool"),
            Reason = Text(told, "reason"),
            Exception = Text(told, "exception"),
            AtLockPoint = IsTrue(told, "at_lock_point"),
            ExtraMeasure = Text(told, "extra_measure"),
            Procedure = Text(told, "procedure"),
            Count = told["count"]?.GetValue<int>(),
            Crews = Texts(told["crews"]),
            Measures = [.. Texts(told["measures"]).Select(Measure)],
            Task =
                Text(told, "purpose") == "backlapping" || Text(told, "event") == "energised_task_performed"
                    ? ServiceTask.Lap
                    : null,
            Claim = Text(told, "exemption") is { } exemption ? Claim(exemption, around) : null,
            Others =
            [
                .. OtherPeople
                    .SelectMany(member => told[member] is JsonArray many ? Texts(many) : One(told, member))
                    .Select(person => new Id<Participant>(person)),
            ],
        };

    public static ProtectiveMeasure Measure(string told) =>
        told == "second_person_at_stop_control_or_single_operator_control"
            ? ProtectiveMeasure.SingleOperatorControl
            : Enum.Parse<ProtectiveMeasure>(
                told.Replace("_", "", StringComparison.Ordinal),
                ignoreCase: true
            );

    private static IEnumerable<string> One(JsonNode told, string member) =>
        Text(told, member) is { } one ? [one] : [];

    private static TimelineEventKind Kind(string told) =>
        Enum.Parse<TimelineEventKind>(told.Replace("_", "", StringComparison.Ordinal), ignoreCase: true);

    private static Pressure PressureOf(JsonNode value, string unit) =>
        Pressure
            .Parse(string.Create(CultureInfo.InvariantCulture, $"{value.GetValue<int>()} {unit}"))
            .TryGet(out Pressure pressure, out _)
            ? pressure
            : throw new InvalidDataException(unit);

    private static ExemptionClaim Claim(string exemption, JsonObject around)
    {
        JsonNode? facts = around["exemption_facts"];
        return exemption == "cord_and_plug"
            ? new(ExemptionKind.CordAndPlug)
            : new(
                ExemptionKind.MinorServicing,
                IsTrue(facts, "routine"),
                IsTrue(facts, "repetitive"),
                IsTrue(facts, "integral")
            );
    }

    /// <summary>The published timeline keeps this claim beside the events; a record holds it among them.</summary>
    private static TimelineEvent WithoutProcedure(TimelineEvent beside, JsonNode excepted)
    {
        bool[] answers = [.. excepted["answers"]!.AsArray().Select(each => each!.GetValue<bool>())];
        return new()
        {
            At = beside.At,
            Kind = TimelineEventKind.ExemptionClaimed,
            Actor = beside.Actor,
            Claim = new(
                ExemptionKind.UndocumentedProcedure,
                Facts: new(
                    answers[0],
                    answers[1],
                    answers[2],
                    answers[3],
                    answers[4],
                    answers[5],
                    answers[6],
                    answers[7]
                )
            ),
        };
    }
}
