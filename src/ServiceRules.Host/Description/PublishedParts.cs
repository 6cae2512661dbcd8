using System.Text.Json.Nodes;
using ServiceRules.Formats;

namespace ServiceRules.Host.Description;

/// <summary>Puts the published schemas of documents into the description, in place of the marks that name them.</summary>
internal static class PublishedParts
{
    /// <summary>Marks a schema that is a published one.</summary>
    public const string Mark = "x-published";

    private const string Reference = References.Word;
    private const string Definitions = "$defs";
    private const string LocalStart = "#/$defs/";
    private const string SchemasStart = References.Start;
    private const string FileEnding = ".schema.json";

    // Of the file of a schema, and no part of one that stands within another document.
    private static readonly string[] OfFile = ["$schema", "$id"];

    public static void PutInto(JsonObject root)
    {
        var components = (root["components"] ??= new JsonObject()).AsObject();
        var schemas = (components["schemas"] ??= new JsonObject()).AsObject();
        LeftOut.Where(schemas);
        var needed = new SortedSet<string>(StringComparer.Ordinal);
        Replace(root, needed);
        foreach (var (file, text) in PublishedSchemas.Of(_ => null))
        {
            var name = file[..^FileEnding.Length];
            if (needed.Any(mark => IsOf(mark, name)))
            {
                Put(schemas, name, JsonNode.Parse(text)!.AsObject());
            }
        }

        References.Straighten(root, schemas);
        References.DropUnused(root, schemas);
    }

    // A mark names a document, or after a dot one of its definitions.
    private static bool IsOf(string mark, string document) =>
        mark == document || mark.StartsWith(document + ".", StringComparison.Ordinal);

    private static void Replace(JsonNode node, SortedSet<string> needed)
    {
        switch (node)
        {
            case JsonObject described when described[Mark]?.GetValue<string>() is { } name:
                needed.Add(name);
                described.Clear();
                described[Reference] = SchemasStart + name;
                break;
            case JsonObject described:
                foreach (var (_, part) in described.ToList())
                {
                    if (part is not null)
                    {
                        Replace(part, needed);
                    }
                }

                break;
            case JsonArray list:
                foreach (var part in list.OfType<JsonNode>().ToList())
                {
                    Replace(part, needed);
                }

                break;
            default:
                break;
        }
    }

    // Definitions of two documents may share a name and not the content, so that each keeps its document's.
    private static void Put(JsonObject schemas, string name, JsonObject schema)
    {
        foreach (var member in OfFile)
        {
            schema.Remove(member);
        }

        var definitions = schema[Definitions]?.AsObject();
        schema.Remove(Definitions);
        schemas[name] = schema;
        Lead(schema, name);
        foreach (var (part, content) in definitions?.ToList() ?? [])
        {
            var own = content!.DeepClone();
            schemas[$"{name}.{part}"] = own;
            Lead(own, name);
        }
    }

    private static void Lead(JsonNode node, string name)
    {
        switch (node)
        {
            case JsonObject described:
                if (
                    described[Reference] is JsonValue at
                    && at.TryGetValue<string>(out var to)
                    && to.StartsWith(LocalStart, StringComparison.Ordinal)
                )
                {
                    described[Reference] = $"{SchemasStart}{name}.{to[LocalStart.Length..]}";
                }

                foreach (var (_, part) in described.ToList())
                {
                    if (part is not null)
                    {
                        Lead(part, name);
                    }
                }

                break;
            case JsonArray list:
                foreach (var part in list.OfType<JsonNode>())
                {
                    Lead(part, name);
                }

                break;
            default:
                break;
        }
    }
}
