using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>An object whose names are chosen by its author: name to value.</summary>
internal sealed class MapShape<T>(string pattern, string nameAccepted, JsonShape<T> item, int max)
    : JsonShape<ImmutableSortedDictionary<string, T>>
    where T : notnull
{
    private static readonly ImmutableSortedDictionary<string, T> Nothing = ImmutableSortedDictionary.Create<
        string,
        T
    >(StringComparer.Ordinal);

    private readonly Regex name = new(@"\A(?:" + pattern + @")\z", RegexOptions.CultureInvariant);

    private string Accepted =>
        string.Create(CultureInfo.InvariantCulture, $"an object of at most {max} members");

    public override bool TryRead(
        SourceNode node,
        ReadContext context,
        [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out ImmutableSortedDictionary<string, T>? value
    )
    {
        value = Nothing;
        if (node.Kind != SourceKind.Object)
        {
            return WrongType(node, context, Accepted, out value);
        }

        if (node.Children.Count > max)
        {
            context.Report(node, ProblemCode.ListLength, "the object has too many members", Accepted);
            return false;
        }

        ImmutableSortedDictionary<string, T>.Builder all = Nothing.ToBuilder();
        foreach (SourceNode child in node.Children)
        {
            bool named = name.IsMatch(child.Name!);
            if (!named)
            {
                context.ReportName(
                    child,
                    ProblemCode.NamePattern,
                    "the name has another form",
                    () => nameAccepted
                );
            }

            if (item.TryRead(child, context, out T? read) && named)
            {
                all[child.Name!] = read;
            }
        }

        value = all.ToImmutable();
        return value.Count == node.Children.Count;
    }

    public override void Write(Utf8JsonWriter writer, ImmutableSortedDictionary<string, T> value)
    {
        writer.WriteStartObject();
        foreach ((string key, T one) in value)
        {
            writer.WritePropertyName(key);
            item.Write(writer, one);
        }

        writer.WriteEndObject();
    }

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        new()
        {
            ["type"] = "object",
            ["propertyNames"] = new JsonObject
            {
                ["pattern"] = "^(?:" + pattern + ")$",
                ["description"] = nameAccepted,
            },
            ["additionalProperties"] = item.ToSchema(definitions),
            ["maxProperties"] = max,
        };
}
