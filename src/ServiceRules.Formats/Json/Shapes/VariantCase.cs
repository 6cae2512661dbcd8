using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>One kind of a variant: the word that marks it and the object that it is.</summary>
public abstract class VariantCase<T>
    where T : notnull
{
    private protected VariantCase(string word) => Word = word;

    internal string Word { get; }

    /// <summary>What an object of this kind is, as hover text.</summary>
    internal abstract string Description { get; }

    internal abstract bool Holds(T value);

    internal abstract bool TryRead(
        SourceNode node,
        ReadContext context,
        string marker,
        [NotNullWhen(true)] out T? value
    );

    internal abstract void WriteMembers(Utf8JsonWriter writer, T value);

    internal abstract JsonObject ToSchema(SchemaDefinitions definitions, string marker);
}
