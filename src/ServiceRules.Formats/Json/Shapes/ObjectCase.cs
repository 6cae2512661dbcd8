using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A kind of a variant that has a type of its own.</summary>
internal sealed class ObjectCase<T, TCase>(string word, ObjectShape<TCase> shape) : VariantCase<T>(word)
    where T : notnull
    where TCase : notnull, T
{
    internal override string Description => shape.Description;

    internal override bool Holds(T value) => value is TCase;

    internal override bool TryRead(
        SourceNode node,
        ReadContext context,
        string marker,
        [NotNullWhen(true)] out T? value
    )
    {
        bool read = shape.TryRead(node, context, [marker], out TCase? one);
        value = one;
        return read;
    }

    internal override void WriteMembers(Utf8JsonWriter writer, T value) =>
        shape.WriteMembers(writer, (TCase)value!);

    internal override JsonObject ToSchema(SchemaDefinitions definitions, string marker) =>
        definitions.Refer(shape.Name, shape, () => shape.Body(definitions, (marker, Word)));
}
