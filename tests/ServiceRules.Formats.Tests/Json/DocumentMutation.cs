using System.Text.Json.Nodes;

namespace ServiceRules.Formats.Tests.Json;

/// <summary>Makes a document that is nearly right from one that is right: a few seeded changes to its tree.</summary>
internal sealed class DocumentMutation(int seed)
{
    // No text ends with a line break: `$` means the very end in ECMAScript, which JSON Schema follows, but the
    // validator of these tests runs the platform's expressions, where it also matches before a last line break.
    private static readonly string[] Values =
    [
        "null",
        "true",
        "0",
        "3.0",
        "1e1",
        "-1",
        "100",
        "0.5",
        "1e400",
        "\"\"",
        "\" \"",
        "\"g1\"",
        "\"g2\"",
        "\"x y\"",
        "\"busy\"",
        "\"closed\"",
        "\"0.040 in\"",
        "\"25 µm\"",
        "\"a\\tb\"",
        "\"a\\nb\"",
        "\"😀😀\"",
        "[]",
        "[1]",
        "{}",
        "{\"a\":1}",
        "{\"kind\":\"said\",\"words\":\"x\"}",
        "{\"id\":\"g9\",\"thickness\":\"2 thou\"}",
    ];

    private static readonly string[] CommonNames =
    [
        "id",
        "kind",
        "x",
        "left",
        "Left",
        "locked",
        "owner",
        "$schema",
        "count",
    ];

    private readonly Random random = new(seed);
    private string[] names = CommonNames;
    private string[] values = Values;

    public string Of(string text)
    {
        JsonNode root = JsonNode.Parse(text)!;
        // Names and values of the document itself reach further into it than any that are made up.
        JsonNode[] holders = [.. Holders(root)];
        names =
        [
            .. CommonNames,
            .. holders.OfType<JsonObject>().SelectMany(holder => holder.Select(m => m.Key)).Distinct(),
        ];
        values = [.. Values, .. holders.SelectMany(Held).Select(Text).Distinct()];
        for (int times = random.Next(1, 4); times > 0; times--)
        {
            Change([.. Holders(root)]);
        }

        return root.ToJsonString();
    }

    private void Change(JsonNode[] holders)
    {
        JsonNode holder = holders[random.Next(holders.Length)];
        switch (holder)
        {
            case JsonObject members:
                ChangeMember(members);
                break;
            case JsonArray items:
                ChangeItem(items);
                break;
        }
    }

    private void ChangeMember(JsonObject members)
    {
        string[] own = [.. members.Select(member => member.Key)];
        string name = own.Length == 0 ? "x" : own[random.Next(own.Length)];
        switch (random.Next(4))
        {
            case 0:
                members.Remove(name);
                break;
            case 1:
                members[names[random.Next(names.Length)]] = Value();
                break;
            default:
                members[name] = Value();
                break;
        }
    }

    private void ChangeItem(JsonArray items)
    {
        switch (random.Next(4))
        {
            case 0 when items.Count > 0:
                items.RemoveAt(random.Next(items.Count));
                break;
            case 1 when items.Count > 0:
                items.Add(items[random.Next(items.Count)]?.DeepClone());
                break;
            default:
                items.Insert(random.Next(items.Count + 1), Value());
                break;
        }
    }

    private JsonNode? Value() => JsonNode.Parse(values[random.Next(values.Length)]);

    private static IEnumerable<JsonNode?> Held(JsonNode holder) =>
        holder is JsonObject members ? members.Select(member => member.Value) : holder.AsArray();

    private static string Text(JsonNode? node) => node?.ToJsonString() ?? "null";

    private static IEnumerable<JsonNode> Holders(JsonNode? node) =>
        node switch
        {
            JsonObject members => members.SelectMany(member => Holders(member.Value)).Prepend(members),
            JsonArray items => items.SelectMany(Holders).Prepend(items),
            _ => [],
        };
}
