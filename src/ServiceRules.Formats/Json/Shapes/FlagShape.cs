using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>True or false.</summary>
internal sealed class FlagShape : JsonShape<bool>
{
    public override bool TryRead(SourceNode node, ReadContext context, out bool value)
    {
        value = node.Kind == SourceKind.True;
        return node.Kind is SourceKind.True or SourceKind.False
            || WrongType(node, context, "true or false", out value);
    }

    public override void Write(Utf8JsonWriter writer, bool value) => writer.WriteBooleanValue(value);

    public override JsonObject ToSchema(SchemaDefinitions definitions) => new() { ["type"] = "boolean" };
}
