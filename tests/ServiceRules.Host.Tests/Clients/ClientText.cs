using System.Text.Json.Nodes;

namespace ServiceRules.Host.Tests.Clients;

/// <summary>
/// The text of the interface as a generator of clients can take it in. It says less than the text itself: a client that
/// knows fewer words than the service it asks still reads its answers, and writes back what it does not know.
/// </summary>
internal static class ClientText
{
    private const string Schemas = "#/components/schemas/";

    // What a document has to be; the service says so itself, with the place.
    private static readonly string[] Demands =
    [
        "pattern",
        "minLength",
        "maxLength",
        "minimum",
        "maximum",
        "minItems",
        "maxItems",
        "uniqueItems",
        "additionalProperties",
        "allOf",
        "if",
        "then",
        "dependentRequired",
        // What is left out is left out, and not sent as what it would mean.
        "default",
        "examples",
        "$comment",
    ];

    public static JsonObject Of(JsonObject text)
    {
        var root = text.DeepClone().AsObject();
        var components = root["components"]!.AsObject();
        components.Remove("examples");
        components["schemas"] = new JsonObject(
            components["schemas"]!
                .AsObject()
                .Select(one => KeyValuePair.Create(NameOf(one.Key), one.Value?.DeepClone()))
        );
        Rename(root);
        var schemas = components["schemas"]!.AsObject();
        foreach (var schema in schemas.Select(one => one.Value!.AsObject()).ToList())
        {
            Fold(schema, schemas);
            Loosen(schema);
        }

        foreach (var content in Contents(root["paths"]!))
        {
            PassFiles(content);
        }

        return root;
    }

    // `service-record.bench-entry`: ServiceRecordBenchEntry.
    private static string NameOf(string schema) =>
        string.Concat(schema.Split('-', '.').Select(part => char.ToUpperInvariant(part[0]) + part[1..]));

    private static void Rename(JsonNode? node)
    {
        if (node is JsonObject described)
        {
            if (
                described["$ref"] is JsonValue at
                && at.GetValue<string>() is var to
                && to.StartsWith(Schemas, StringComparison.Ordinal)
            )
            {
                described["$ref"] = Schemas + NameOf(to[Schemas.Length..]);
            }

            described.Remove("examples");
        }

        foreach (var part in Parts(node))
        {
            Rename(part);
        }
    }

    // Alternatives that the members themselves tell apart become one object that may have the members of each.
    private static void Fold(JsonObject schema, JsonObject schemas)
    {
        if (schema["oneOf"] is not JsonArray choices || choices.Any(choice => choice?["$ref"] is null))
        {
            return;
        }

        schema.Remove("oneOf");
        var properties = (schema["properties"] ??= new JsonObject()).AsObject();
        foreach (var choice in choices)
        {
            var chosen = schemas[choice!["$ref"]!.GetValue<string>()[Schemas.Length..]]!;
            foreach (var (name, member) in chosen["properties"]!.AsObject())
            {
                properties[name] ??= member!.DeepClone();
            }
        }
    }

    private static void Loosen(JsonObject described)
    {
        foreach (var demand in Demands)
        {
            described.Remove(demand);
        }

        if (described["enum"] is JsonArray words)
        {
            described.Remove("enum");
            described["type"] = TypeOf(words[0]!);
        }

        if (described["const"] is { } only)
        {
            described.Remove("const");
            described["type"] = TypeOf(only);
        }

        if (described["oneOf"] is JsonArray choices && choices.All(choice => choice?["const"] is not null))
        {
            described.Remove("oneOf");
            described["type"] = TypeOf(choices[0]!["const"]!);
        }

        // One thing or several of it: the generator would settle for the first.
        if (described["oneOf"] is JsonArray)
        {
            described.Remove("oneOf");
        }

        // A member may have the name of a demand.
        foreach (
            var part in Parts(described["properties"])
                .Append(described["items"])
                .Append(described["additionalProperties"])
                .OfType<JsonObject>()
        )
        {
            Loosen(part);
        }
    }

    private static string TypeOf(JsonNode word) =>
        word.GetValueKind() is System.Text.Json.JsonValueKind.Number ? "integer" : "string";

    private static IEnumerable<JsonObject> Contents(JsonNode? node) =>
        Parts(node)
            .SelectMany(Contents)
            .Concat(
                node is JsonObject described && described["content"] is JsonObject content ? [content] : []
            );

    // The generator takes for JSON whatever is neither plain text nor a file.
    private static void PassFiles(JsonObject content)
    {
        foreach (var (kind, body) in content.ToList())
        {
            if (kind != "text/plain" && !kind.EndsWith("json", StringComparison.Ordinal))
            {
                body!["schema"] = new JsonObject { ["type"] = "string", ["format"] = "binary" };
            }
        }
    }

    private static List<JsonNode?> Parts(JsonNode? node) =>
        node switch
        {
            JsonObject described => [.. described.Select(member => member.Value)],
            JsonArray list => [.. list],
            _ => [],
        };
}
