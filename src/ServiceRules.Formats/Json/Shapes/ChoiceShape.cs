using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>One word of a closed vocabulary.</summary>
internal sealed class ChoiceShape<TEnum> : JsonShape<TEnum>
    where TEnum : struct, Enum
{
    private readonly Dictionary<string, TEnum> byWord = new(StringComparer.Ordinal);
    private readonly Dictionary<TEnum, string> byValue = [];
    private readonly string[] words;
    private readonly string? name;

    /// <param name="name">The name under which schemas state the vocabulary once; none: wherever it is used.</param>
    public ChoiceShape(string? name, string description, IEnumerable<(TEnum Value, string Word)> choices)
    {
        this.name = name;
        Description = description;
        foreach ((TEnum value, string word) in choices)
        {
            byWord.Add(word, value);
            byValue.Add(value, word);
        }

        words = [.. byWord.Keys];
    }

    public override string Description { get; }

    public override bool TryRead(SourceNode node, ReadContext context, out TEnum value)
    {
        if (node.Kind != SourceKind.Text)
        {
            return WrongType(node, context, WordList.OneOf("", words, ""), out value);
        }

        if (!byWord.TryGetValue(node.Content, out value))
        {
            string accepted = WordList.OneOf(node.Content, words, "");
            context.Report(node, ProblemCode.UnknownChoice, "this word is not known here", accepted);
            return false;
        }

        return true;
    }

    public override void Write(Utf8JsonWriter writer, TEnum value) => writer.WriteStringValue(byValue[value]);

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        name is null ? Stated(definitions) : definitions.Refer(name, this, () => Stated(definitions));

    private JsonObject Stated(SchemaDefinitions definitions)
    {
        JsonObject schema = WordSchema.Of(words.Select(word => (word, definitions.SaidOf(byWord[word]))));
        if (Description.Length > 0)
        {
            schema["description"] = Description;
        }

        return schema;
    }
}
