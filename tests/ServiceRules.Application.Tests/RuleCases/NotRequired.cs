using System.Text.Json.Nodes;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>A part of a fixture that a record may lack and still go out, with the reason.</summary>
/// <param name="Fixtures">The fixtures in which it is so; none: in all.</param>
/// <param name="Part">Tells it.</param>
/// <param name="Why">Why it is not required.</param>
internal sealed record NotRequired(string[] Fixtures, Func<JsonNode, string, bool> Part, string Why)
{
    public static NotRequired[] All { get; } =
    [
        new(
            [],
            (part, _) => Is(part, "event", "lock_removed", "removal_notified", "machine_started"),
            "what comes after the machine is safe to leave; who took a lock off is judged where the record shows it"
        ),
        new(
            [],
            (part, _) => Is(part, "event", "isolator_operated") && Is(part, "position", "on"),
            "switching on again: the cut-outs cannot be proved without it"
        ),
        new(
            [],
            (part, _) =>
                Is(part, "event", "stored_energy_released") && Is(part, "source", "gravity", "reel_rotation"),
            "units on the ground or held up, a reel at rest or wedged, are released without another word"
        ),
        new(
            ["lap", "grinder-125"],
            (part, _) => Is(part, "event", "test_energised", "energised_task_performed", "test_ended"),
            "that the reel was run: without an entry of it there is nothing that undid the first lock"
        ),
        new(
            ["grinder-125"],
            (part, _) =>
                part is JsonObject again
                && string.CompareOrdinal((string?)again["at"], "2026-04-13T10:16:00+01:00") >= 0
                && Is(part, "event", "unit_supported"),
            "asked for once in a job; after a run the isolation, the lock and the proof are judged again"
        ),
        new(
            ["grinder-125"],
            (part, pointer) => Is(part, "event", "guards_refitted") && pointer == "/timeline/14",
            "that the guard was closed for the run stands in the measures of the run"
        ),
        new(
            ["bench-height-check", "grind-125", "seasonal-overhaul-125"],
            (part, _) => Is(part, "event", "work_stopped"),
            "on the bench nothing is started afterwards"
        ),
        new(
            [],
            (part, _) =>
                part is JsonObject entry && (entry.ContainsKey("turn") || entry.ContainsKey("grind")),
            "what was turned or ground says how it came about; what stands is read afterwards"
        ),
        new(
            [],
            (part, _) => Is(part, "phase", "found"),
            "one reading as found will do, and a missing one is told, never a hold"
        ),
        new(
            [
                "touch-up",
                "lap",
                "full-service-125",
                "full-service-180",
                "grind-125",
                "grinder-125",
                "seasonal-overhaul-125",
            ],
            (part, _) => Is(part, "read", "clearance") && Is(part, "contact", "none", "light"),
            "over a gap the feelers prove what contact on the way only tells"
        ),
        new([], (part, _) => Is(part, "read", "edge"), "paper that was not tried is told, not a hold"),
        new(
            ["touch-up", "lap"],
            (part, _) => Is(part, "read", "front-roller"),
            "a touch-up asks that the roller is read again, not where"
        ),
        new(
            ["height-change"],
            (part, _) => Is(part, "read", "groomer-height"),
            "after a height change the groomer is read again, at one side at least"
        ),
        new(
            ["grind-125", "grinder-125"],
            (part, _) =>
                Is(part, "read", "groomer-height", "brush-gap", "guards", "bearing-play", "land-width"),
            "a grind asks for the bearings once, and for guards, groomer and brush when the unit is serviced"
        ),
        new(
            ["seasonal-overhaul-125"],
            (part, _) =>
                (part is JsonObject fitted && fitted.ContainsKey("fit"))
                || Is(part, "read", "guards", "bearing-play", "land-width"),
            "looked at twice, before and after: one will do where nothing was done to it between; the land is told"
        ),
        new(
            ["grind-125", "grinder-125", "seasonal-overhaul-125"],
            (_, pointer) => pointer == "/followUp",
            "the follow-up comes after the first use; until then it is told"
        ),
        new(
            [],
            (_, pointer) =>
                pointer.StartsWith("/instruments/", StringComparison.Ordinal)
                && (
                    EndsWith(pointer, "resolution", "repeatability", "zeroCheck")
                    || (
                        EndsWith(pointer, "calibration") && !pointer.Contains("/3/", StringComparison.Ordinal)
                    )
                ),
            "calibration or a zero check will do; resolution and repeatability only widen the doubt"
        ),
        new(
            [],
            (_, pointer) =>
                pointer
                    is "/instruments/4/inspection"
                        or "/instruments/3/inspection"
                        or "/instruments/6/inspection",
            "nobody inspects a strip of paper"
        ),
    ];

    private static bool Is(JsonNode part, string member, params string[] words) =>
        part is JsonObject held
        && held[member] is JsonValue value
        && value.TryGetValue(out string? word)
        && words.Contains(word);

    private static bool EndsWith(string pointer, params string[] members) =>
        members.Any(member => pointer.EndsWith("/" + member, StringComparison.Ordinal));
}
