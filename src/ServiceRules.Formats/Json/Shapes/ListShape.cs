using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A list of values of one shape, within a length.</summary>
internal sealed class ListShape<T>(JsonShape<T> item, int min, int max) : JsonShape<ImmutableArray<T>>
    where T : notnull
{
    private string Accepted =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"a list of {(min == 0 ? "at most" : $"{min} to")} {max}"
        );

    public override bool TryRead(SourceNode node, ReadContext context, out ImmutableArray<T> value)
    {
        if (node.Kind != SourceKind.List)
        {
            return WrongType(node, context, Accepted, out value);
        }

        value = [];
        if (node.Children.Count < min || node.Children.Count > max)
        {
            string what = node.Children.Count < min ? "the list is too short" : "the list is too long";
            context.Report(node, ProblemCode.ListLength, what, Accepted);
            return false;
        }

        ImmutableArray<T>.Builder items = ImmutableArray.CreateBuilder<T>(node.Children.Count);
        foreach (SourceNode child in node.Children)
        {
            if (item.TryRead(child, context, out T? read))
            {
                items.Add(read);
            }
        }

        value = items.ToImmutable();
        return value.Length == node.Children.Count;
    }

    public override void Write(Utf8JsonWriter writer, ImmutableArray<T> value)
    {
        writer.WriteStartArray();
        foreach (T one in value)
        {
            item.Write(writer, one);
        }

        writer.WriteEndArray();
    }

    public override JsonObject ToSchema(SchemaDefinitions definitions)
    {
        JsonObject schema = new() { ["type"] = "array", ["items"] = item.ToSchema(definitions) };
        if (min > 0)
        {
            schema["minItems"] = min;
        }

        schema["maxItems"] = max;
        return schema;
    }
}
