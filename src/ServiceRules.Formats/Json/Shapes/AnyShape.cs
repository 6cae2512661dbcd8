using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>Any JSON value that is something: what a patch puts into another document, which judges it by its own shape.</summary>
internal sealed class AnyShape : JsonShape<JsonNode>
{
    public override bool TryRead(
        SourceNode node,
        ReadContext context,
        [NotNullWhen(true)] out JsonNode? value
    )
    {
        if (node.Kind == SourceKind.Null)
        {
            return WrongType(node, context, "a value", out value);
        }

        value = NodeOf(node)!;
        return true;
    }

    public override void Write(Utf8JsonWriter writer, JsonNode value) => value.WriteTo(writer);

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        new() { ["type"] = new JsonArray("object", "array", "string", "number", "boolean") };

    private static JsonNode? NodeOf(SourceNode node) =>
        node.Kind switch
        {
            SourceKind.Object => new JsonObject(
                node.Children.Select(child => KeyValuePair.Create(child.Name!, NodeOf(child)))
            ),
            SourceKind.List => new JsonArray([.. node.Children.Select(NodeOf)]),
            SourceKind.Text => JsonValue.Create(node.Content),
            SourceKind.Number => Number(node.Content),
            SourceKind.True => JsonValue.Create(true),
            SourceKind.False => JsonValue.Create(false),
            _ => null,
        };

    private static JsonValue Number(string digits) =>
        decimal.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal number)
            ? JsonValue.Create(number)
            : JsonValue.Create(digits);
}
