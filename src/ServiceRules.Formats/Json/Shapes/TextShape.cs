using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A text within a length and a pattern. Lengths count characters (code points), as JSON Schema does.</summary>
internal sealed class TextShape : JsonShape<string>
{
    private readonly int min;
    private readonly int max;
    private readonly string pattern;
    private readonly string accepted;
    private readonly string[] examples;
    private readonly Func<string, bool> matches;

    /// <param name="pattern">
    /// An expression that the whole text matches, in the part of the language that ECMAScript and .NET share.
    /// </param>
    public TextShape(int min, int max, string pattern, string accepted, string[] examples)
        : this(min, max, pattern, accepted, examples, Whole(pattern)) { }

    /// <param name="matches">Says of a text what the pattern says, without an expression's cost.</param>
    public TextShape(
        int min,
        int max,
        string pattern,
        string accepted,
        string[] examples,
        Func<string, bool> matches
    )
    {
        this.min = min;
        this.max = Math.Min(max, ReadLimits.TextLength);
        this.pattern = pattern;
        this.accepted = accepted;
        this.examples = examples;
        this.matches = matches;
    }

    public override string Description => accepted;

    public override bool TryRead(SourceNode node, ReadContext context, out string value)
    {
        value = node.Content;
        if (node.Kind != SourceKind.Text)
        {
            return WrongType(node, context, accepted, out value!);
        }

        if (!node.IsWellFormed)
        {
            context.Report(
                node,
                ProblemCode.TextSurrogate,
                SourceReader.Surrogate,
                SourceReader.SurrogateAccepted
            );
            return false;
        }

        int length = value.EnumerateRunes().Count();
        if (length < min || length > max)
        {
            string what = string.Create(CultureInfo.InvariantCulture, $"the text has {length} characters");
            string range = string.Create(CultureInfo.InvariantCulture, $"{min} to {max} characters");
            context.Report(node, ProblemCode.TextLength, length == 0 ? "the text is empty" : what, range);
            return false;
        }

        if (!matches(value))
        {
            context.Report(node, ProblemCode.TextPattern, "the text has another form", accepted);
            return false;
        }

        return true;
    }

    public override void Write(Utf8JsonWriter writer, string value) => writer.WriteStringValue(value);

    public override JsonObject ToSchema(SchemaDefinitions definitions)
    {
        JsonObject schema = new()
        {
            ["type"] = "string",
            ["description"] = accepted,
            ["minLength"] = min,
            ["maxLength"] = max,
            ["pattern"] = "^(?:" + pattern + ")$",
        };
        if (examples.Length > 0)
        {
            schema["examples"] = new JsonArray([.. examples.Select(example => JsonValue.Create(example))]);
        }

        return schema;
    }

    // Patterns are this assembly's own, without nested repetition, and lengths are bounded before they are asked.
    private static Func<string, bool> Whole(string pattern) =>
        new Regex(@"\A(?:" + pattern + @")\z", RegexOptions.CultureInvariant).IsMatch;
}
