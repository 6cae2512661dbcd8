using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A value that names a thing for the rest of the document, or refers to one so named.</summary>
internal sealed class NamingShape<T>(JsonShape<T> inner, string kind, bool declares, Func<T, string> identity)
    : JsonShape<T>
    where T : notnull
{
    public override string Description => inner.Description;

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value)
    {
        if (!inner.TryRead(node, context, out value))
        {
            return false;
        }

        if (declares)
        {
            context.Declare(kind, identity(value), node);
        }
        else
        {
            context.Refer(kind, identity(value), node);
        }

        return true;
    }

    public override void Write(Utf8JsonWriter writer, T value) => inner.Write(writer, value);

    public override JsonObject ToSchema(SchemaDefinitions definitions)
    {
        JsonObject schema = inner.ToSchema(definitions);
        string said = declares
            ? $"Names a {kind} of this document."
            : $"Names a {kind} that this document lists.";
        schema["$comment"] = said;
        return schema;
    }
}
