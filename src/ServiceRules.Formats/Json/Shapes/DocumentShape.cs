using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// A whole document inside another one, told by its `format`. It is carried as it stands: names that it declares are its
/// own, so its own format reads it.
/// </summary>
internal sealed class DocumentShape(string identifier) : JsonShape<JsonNode>
{
    private const string FormatName = "format";

    public override bool TryRead(
        SourceNode node,
        ReadContext context,
        [NotNullWhen(true)] out JsonNode? value
    )
    {
        if (node.Kind != SourceKind.Object)
        {
            return WrongType(node, context, $"a document of format {identifier}", out value);
        }

        if (node.Member(FormatName) is not { Kind: SourceKind.Text } format || format.Content != identifier)
        {
            context.Report(
                node,
                ProblemCode.Format,
                "this is another kind or version of document",
                identifier
            );
            value = null;
            return false;
        }

        return Shape.Any.TryRead(node, context, out value);
    }

    public override void Write(Utf8JsonWriter writer, JsonNode value) => Shape.Any.Write(writer, value);

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        new()
        {
            ["type"] = "object",
            ["description"] = $"a whole document of format {identifier}",
            ["properties"] = new JsonObject
            {
                [FormatName] = new JsonObject
                {
                    ["const"] = identifier,
                    ["description"] = "kind and version of the document",
                },
            },
            ["required"] = new JsonArray(FormatName),
        };
}
