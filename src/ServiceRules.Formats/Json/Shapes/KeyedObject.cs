using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A kind of object that has a type of its own.</summary>
internal sealed class KeyedObject<T, TCase>(string key, ObjectShape<TCase> shape) : KeyedCase<T>(key)
    where T : notnull
    where TCase : notnull, T
{
    internal override bool Holds(T value) => value is TCase;

    internal override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value)
    {
        bool read = shape.TryRead(node, context, out TCase? one);
        value = one;
        return read;
    }

    internal override void Write(Utf8JsonWriter writer, T value) => shape.Write(writer, (TCase)value!);

    internal override JsonObject ToSchema(SchemaDefinitions definitions) => shape.ToSchema(definitions);
}
