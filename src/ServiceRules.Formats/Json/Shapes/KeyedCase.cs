using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>One kind of object among several, known by a member that only it has.</summary>
public abstract class KeyedCase<T>
    where T : notnull
{
    private protected KeyedCase(string key) => Key = key;

    internal string Key { get; }

    internal abstract bool Holds(T value);

    internal abstract bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value);

    internal abstract void Write(Utf8JsonWriter writer, T value);

    internal abstract JsonObject ToSchema(SchemaDefinitions definitions);
}
