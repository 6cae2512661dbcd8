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

    private static readonly string[] Names =
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

    public string Of(string text)
    {
        JsonNode root = JsonNode.Parse(text)!;
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
        string[] names = [.. members.Select(member => member.Key)];
        string name = names.Length == 0 ? "x" : names[random.Next(names.Length)];
        switch (random.Next(4))
        {
            case 0:
                members.Remove(name);
                break;
            case 1:
                members[Names[random.Next(Names.Length)]] = Value();
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

    private JsonNode? Value() => JsonNode.Parse(Values[random.Next(Values.Length)]);

    private static IEnumerable<JsonNode> Holders(JsonNode? node) =>
        node switch
        {
            JsonObject members => members.SelectMany(member => Holders(member.Value)).Prepend(members),
            JsonArray items => items.SelectMany(Holders).Prepend(items),
            _ => [],
        };
}
