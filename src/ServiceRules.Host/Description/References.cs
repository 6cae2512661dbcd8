using System.Text.Json.Nodes;

namespace ServiceRules.Host.Description;

/// <summary>What the schemas of a description lead to.</summary>
internal static class References
{
    public const string Word = "$ref";
    public const string Start = "#/components/schemas/";

    /// <summary>Leads past schemas that are nothing but another one under a further name.</summary>
    public static void Straighten(JsonObject root, JsonObject schemas)
    {
        var names = schemas
            .Where(one => one.Value is JsonObject { Count: 1 } alias && Of(alias) is not null)
            .ToDictionary(one => one.Key, one => Of(one.Value!.AsObject())!, StringComparer.Ordinal);
        foreach (var name in names.Keys)
        {
            schemas.Remove(name);
        }

        foreach (var described in Objects(root).Where(described => Of(described) is not null).ToList())
        {
            var name = Of(described)!;
            while (names.TryGetValue(name, out var further))
            {
                name = further;
            }

            described[Word] = Start + name;
        }
    }

    /// <summary>Takes out schemas that nothing which can be asked leads to.</summary>
    public static void DropUnused(JsonObject root, JsonObject schemas)
    {
        var used = new HashSet<string>(StringComparer.Ordinal);
        var open = new Queue<JsonNode>([root["paths"]!]);
        while (open.TryDequeue(out var node))
        {
            foreach (var name in Objects(node).Select(Of).OfType<string>())
            {
                if (used.Add(name) && schemas[name] is { } led)
                {
                    open.Enqueue(led);
                }
            }
        }

        foreach (var name in schemas.Select(one => one.Key).Where(name => !used.Contains(name)).ToList())
        {
            schemas.Remove(name);
        }
    }

    private static string? Of(JsonObject described) =>
        described[Word] is JsonValue at
        && at.TryGetValue<string>(out var to)
        && to.StartsWith(Start, StringComparison.Ordinal)
            ? to[Start.Length..]
            : null;

    private static IEnumerable<JsonObject> Objects(JsonNode? node) =>
        node switch
        {
            JsonObject described => described.SelectMany(member => Objects(member.Value)).Prepend(described),
            JsonArray list => list.SelectMany(Objects),
            _ => [],
        };
}
