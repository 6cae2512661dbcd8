using System.Text;
using System.Text.Json;

namespace ServiceRules.Formats.Json;

/// <summary>
/// How a document that people read and edit is laid out: two spaces a level, on one line what fits on a line, each part of
/// the document itself on lines of its own.
/// </summary>
internal static class DocumentLayout
{
    /// <summary>So many columns fit beside one another on an ordinary screen.</summary>
    public const int Columns = 140;

    private const int Step = 2;

    /// <summary>The same document, laid out.</summary>
    /// <param name="json">A document without problems.</param>
    public static byte[] Of(ReadOnlyMemory<byte> json)
    {
        using var document = JsonDocument.Parse(json);
        StringBuilder laid = new();
        Put(laid, document.RootElement, level: 0, column: 0);
        laid.Append('\n');
        return Encoding.UTF8.GetBytes(laid.ToString());
    }

    private static void Put(StringBuilder laid, JsonElement value, int level, int column)
    {
        if (!Holds(value))
        {
            laid.Append(value.GetRawText());
            return;
        }

        // One column is left for the comma behind it.
        string line = Line(value);
        bool isPart = level == 0 || (level == 1 && IsListOfObjects(value));
        if (!isPart && column + line.Length < Columns)
        {
            laid.Append(line);
            return;
        }

        bool isObject = value.ValueKind is JsonValueKind.Object;
        laid.Append(isObject ? '{' : '[');
        string separator = "\n";
        int inner = (level + 1) * Step;
        foreach ((string? name, JsonElement part) in Parts(value))
        {
            laid.Append(separator).Append(' ', inner);
            int at = inner;
            if (name is not null)
            {
                laid.Append(name).Append(": ");
                at += name.Length + 2;
            }

            Put(laid, part, level + 1, at);
            separator = ",\n";
        }

        laid.Append('\n').Append(' ', level * Step).Append(isObject ? '}' : ']');
    }

    private static string Line(JsonElement value)
    {
        if (!Holds(value))
        {
            return value.GetRawText();
        }

        string parts = string.Join(
            ", ",
            Parts(value)
                .Select(part => part.Name is null ? Line(part.Value) : $"{part.Name}: {Line(part.Value)}")
        );
        return value.ValueKind is JsonValueKind.Object ? $"{{ {parts} }}" : $"[{parts}]";
    }

    private static IEnumerable<(string? Name, JsonElement Value)> Parts(JsonElement value) =>
        value.ValueKind is JsonValueKind.Object
            ? value.EnumerateObject().Select(member => ((string?)NameOf(member), member.Value))
            : value.EnumerateArray().Select(item => ((string?)null, item));

    // As the writer of the product wrote it, escapes included.
    private static string NameOf(JsonProperty member) =>
        $"\"{JsonEncodedText.Encode(member.Name, System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"";

    private static bool Holds(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.Object => value.EnumerateObject().Any(),
            JsonValueKind.Array => value.GetArrayLength() > 0,
            _ => false,
        };

    private static bool IsListOfObjects(JsonElement value) =>
        value.ValueKind is JsonValueKind.Array
        && value.EnumerateArray().Any(item => item.ValueKind is JsonValueKind.Object);
}
