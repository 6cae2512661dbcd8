using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>
/// Records to submit: the fixture of a height check that ships with the rules, under identities of their own; J-1 of one day, J-2
/// of the next.
/// </summary>
internal static class Jobs
{
    private static readonly Lazy<LoadedRules> Shipped = new(() =>
        RuleFolder.Load(ReferenceFiles.InRepository("rules"))
    );

    public static LoadedRules Rules => Shipped.Value;

    private static readonly Lazy<string> Fixture = new(() =>
        File.ReadAllText(ReferenceFiles.InRepository("rules", "base", "fixtures", "height-check.record.json"))
    );

    public static AssessRecord Judging { get; } = new(Rules.Book, Rules.Site!);

    /// <summary>A further site with the same registers.</summary>
    public static AssessRecord JudgingAt(string name) => new(Rules.Book, Rules.Site! with { Name = name });

    public static byte[] Job(string id, Action<JsonObject>? change = null)
    {
        var record = JsonNode.Parse(Fixture.Value)!.AsObject();
        record["id"] = id;
        change?.Invoke(record);
        var day = new DateOnly(2026, 4, 12).AddDays(int.Parse(id.AsSpan(2), CultureInfo.InvariantCulture));
        return Encoding.UTF8.GetBytes(
            record
                .ToJsonString()
                .Replace(
                    "2026-04-13",
                    day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    StringComparison.Ordinal
                )
        );
    }

    /// <summary>That the machine of J-1 was started while hands were in its units.</summary>
    public static byte[] Start(string by = "tech-04") =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "service-record/1", "id": "J-start", "date": "2026-04-13", "machine": { "id": "M-02" },
              "tasks": ["daily-check"], "people": [{ "id": "{{by}}", "role": "performs" }],
              "units": [{ "id": "U-02-1", "sheet": "reel-125-9-510", "position": 1, "entries": [] }],
              "timeline": [{ "event": "machine_started", "at": "2026-04-13T08:20:00+01:00", "by": "{{by}}" }],
              "signOff": { "by": "{{by}}", "at": "2026-04-13T09:30:00+01:00" } }
            """
        );

    public static void Mend(JsonObject job) => job["units"]![0]!["entries"]![0]!["value"] = "3.81 mm";

    public static void LeaveOpen(JsonObject job)
    {
        _ = job.Remove("signOff");
        _ = job.Remove("followUp");
    }
}
