using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// What one kind of value looks like in JSON. The same description reads it, writes it and states itself as JSON
/// Schema, so the three cannot drift apart.
/// </summary>
public abstract class JsonShape<T>
    where T : notnull
{
    /// <summary>What the value is, as hover text in an editor.</summary>
    public virtual string Description => "";

    /// <summary>Reads a value; when the answer is false at least one problem was reported.</summary>
    public abstract bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value);

    public abstract void Write(Utf8JsonWriter writer, T value);

    /// <summary>The JSON Schema (2020-12) of what <see cref="TryRead"/> accepts, as far as a schema can say it.</summary>
    public abstract JsonObject ToSchema(SchemaDefinitions definitions);

    /// <summary>Reports a value of another JSON type than the shape asks for.</summary>
    protected static bool WrongType(
        SourceNode node,
        ReadContext context,
        string accepted,
        [NotNullWhen(true)] out T? value
    )
    {
        string what =
            node.Kind == SourceKind.Null
                ? "null is not a value here; leave the member out"
                : $"this is {Called(node.Kind)}";
        context.Report(node, ProblemCode.WrongType, what, accepted);
        value = default;
        return false;
    }

    private static string Called(SourceKind kind) =>
        kind switch
        {
            SourceKind.Object => "an object",
            SourceKind.List => "a list",
            SourceKind.Text => "a text",
            SourceKind.Number => "a number",
            _ => "true or false",
        };
}
