using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A shape that is looked up when it is used, so that a shape can contain itself.</summary>
internal sealed class DeferredShape<T>(Func<JsonShape<T>> shape) : JsonShape<T>
    where T : notnull
{
    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value) =>
        shape().TryRead(node, context, out value);

    public override void Write(Utf8JsonWriter writer, T value) => shape().Write(writer, value);

    public override JsonObject ToSchema(SchemaDefinitions definitions) => shape().ToSchema(definitions);
}
