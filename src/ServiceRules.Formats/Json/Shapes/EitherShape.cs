using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A value with a short form, which is a text, and a long form, which is not.</summary>
internal sealed class EitherShape<T>(JsonShape<T> brief, JsonShape<T> full, Func<T, bool> isBrief)
    : JsonShape<T>
    where T : notnull
{
    public override string Description => brief.Description;

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value) =>
        node.Kind is SourceKind.Object or SourceKind.List
            ? full.TryRead(node, context, out value)
            : brief.TryRead(node, context, out value);

    public override void Write(Utf8JsonWriter writer, T value) =>
        (isBrief(value) ? brief : full).Write(writer, value);

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        new() { ["oneOf"] = new JsonArray(brief.ToSchema(definitions), full.ToSchema(definitions)) };
}
