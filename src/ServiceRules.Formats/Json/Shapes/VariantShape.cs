using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>An object of one of several kinds, told apart by the word in one member.</summary>
internal sealed class VariantShape<T> : JsonShape<T>
    where T : notnull
{
    private readonly string name;
    private readonly string marker;
    private readonly Dictionary<string, VariantCase<T>> cases = new(StringComparer.Ordinal);
    private readonly string[] words;

    public VariantShape(string name, string description, string marker, IEnumerable<VariantCase<T>> cases)
    {
        this.name = name;
        this.marker = marker;
        Description = description;
        foreach (VariantCase<T> one in cases)
        {
            this.cases.Add(one.Word, one);
        }

        words = [.. this.cases.Keys];
    }

    public override string Description { get; }

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value)
    {
        if (node.Kind != SourceKind.Object)
        {
            return WrongType(node, context, $"an object with `{marker}`", out value);
        }

        value = default;
        SourceNode? word = node.Member(marker);
        if (word is null)
        {
            context.ReportMissing(node, marker, WordList.OneOf("", words, ""));
            return false;
        }

        if (word.Kind != SourceKind.Text)
        {
            return WrongType(word, context, WordList.OneOf("", words, ""), out value);
        }

        if (cases.TryGetValue(word.Content, out VariantCase<T>? one))
        {
            return one.TryRead(node, context, marker, out value);
        }

        string accepted = WordList.OneOf(word.Content, words, "");
        context.Report(word, ProblemCode.UnknownChoice, "this word is not known here", accepted);
        return false;
    }

    public override void Write(Utf8JsonWriter writer, T value)
    {
        VariantCase<T> one = cases.Values.First(candidate => candidate.Holds(value));
        writer.WriteStartObject();
        writer.WriteString(marker, one.Word);
        one.WriteMembers(writer, value);
        writer.WriteEndObject();
    }

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        definitions.Refer(
            name,
            this,
            () =>
                new JsonObject
                {
                    ["type"] = "object",
                    ["description"] = Description,
                    ["properties"] = new JsonObject { [marker] = Marker() },
                    ["required"] = new JsonArray(marker),
                    ["oneOf"] = new JsonArray([
                        .. cases.Values.Select(one => one.ToSchema(definitions, marker)),
                    ]),
                }
        );

    private JsonObject Marker()
    {
        JsonObject schema = WordSchema.Of(cases.Values.Select(one => (one.Word, (string?)one.Description)));
        schema["description"] = "which kind it is: this says what else stands beside it";
        return schema;
    }
}
