using System.Globalization;

namespace ServiceRules.Formats.Json;

/// <summary>A place in a JSON document (RFC 6901). The default is the whole document.</summary>
public readonly record struct JsonPointer
{
    private readonly string? text;

    private JsonPointer(string text) => this.text = text;

    public static JsonPointer Root => default;

    /// <summary>A pointer from its text, in which `~` and `/` of names are escaped.</summary>
    public static JsonPointer Of(string text) => new(text);

    /// <summary>Whether this is the whole document.</summary>
    public bool IsRoot => string.IsNullOrEmpty(text);

    public JsonPointer Member(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return new(
            text
                + "/"
                + name.Replace("~", "~0", StringComparison.Ordinal)
                    .Replace("/", "~1", StringComparison.Ordinal)
        );
    }

    public JsonPointer Item(int index) => new(text + "/" + index.ToString(CultureInfo.InvariantCulture));

    /// <summary>The names and positions from the top down, unescaped.</summary>
    public IEnumerable<string> Steps() =>
        IsRoot
            ? []
            : text!
                .Split('/')
                .Skip(1)
                .Select(step =>
                    step.Replace("~1", "/", StringComparison.Ordinal)
                        .Replace("~0", "~", StringComparison.Ordinal)
                );

    public override string ToString() => text ?? "";
}
