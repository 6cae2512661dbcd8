using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>The fixtures beside the base rules, and every part of them that a technician could leave out.</summary>
internal static class FixtureParts
{
    private static readonly string[] OfAnInstrument =
    [
        "calibration",
        "zeroCheck",
        "inspection",
        "tolerance",
        "resolution",
        "repeatability",
    ];

    public static string Folder => ReferenceFiles.InRepository("rules", "base", "fixtures");

    public static IEnumerable<string> Names() =>
        Directory
            .GetFiles(Folder, "*.record.json")
            .Select(path => Path.GetFileName(path)[..^".record.json".Length])
            .Order(StringComparer.Ordinal);

    public static JsonObject Record(string name) =>
        JsonNode.Parse(File.ReadAllBytes(Path.Combine(Folder, name + ".record.json")))!.AsObject();

    public static byte[] Context(string name) =>
        File.ReadAllBytes(Path.Combine(Folder, name + ".context.json"));

    /// <summary>Each part with the record that lacks it.</summary>
    public static IEnumerable<(JsonNode Part, string Pointer, JsonObject Without)> LeftOut(JsonObject record)
    {
        foreach (string pointer in Pointers(record))
        {
            JsonObject without = record.DeepClone().AsObject();
            string[] steps = pointer.Split('/')[1..];
            JsonNode holder = steps[..^1].Aggregate((JsonNode)without, Into);
            JsonNode part = Into(holder, steps[^1]).DeepClone();
            if (holder is JsonArray list)
            {
                list.RemoveAt(Index(steps[^1]));
            }
            else
            {
                holder.AsObject().Remove(steps[^1]);
            }

            yield return (part, pointer, without);
        }
    }

    private static IEnumerable<string> Pointers(JsonObject record)
    {
        IEnumerable<string> units = Items(record, "/units")
            .SelectMany(unit => Items(record, unit + "/entries"));
        IEnumerable<string> gauges = Items(record, "/instruments")
            .SelectMany(gauge =>
                OfAnInstrument
                    .Where(member => At(record, gauge).AsObject().ContainsKey(member))
                    .Select(member => $"{gauge}/{member}")
            );
        IEnumerable<string> whole = new[] { "/signOff", "/followUp" }.Where(pointer =>
            record.ContainsKey(pointer[1..])
        );
        return Items(record, "/timeline").Concat(units).Concat(gauges).Concat(whole);
    }

    private static IEnumerable<string> Items(JsonObject record, string list) =>
        Enumerable
            .Range(0, At(record, list).AsArray().Count)
            .Select(index => string.Create(CultureInfo.InvariantCulture, $"{list}/{index}"));

    private static JsonNode At(JsonObject record, string pointer) =>
        pointer.Split('/')[1..].Aggregate((JsonNode)record, Into);

    private static JsonNode Into(JsonNode node, string step) =>
        node is JsonArray list ? list[Index(step)]! : node[step]!;

    private static int Index(string step) => int.Parse(step, CultureInfo.InvariantCulture);
}
