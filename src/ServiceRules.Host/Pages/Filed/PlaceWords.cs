using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>Places of a record in words: of <c>/units/0/entries/1/value</c> the unit, what was read there, and what of it.</summary>
internal static class PlaceWords
{
    /// <param name="root">The record.</param>
    /// <param name="pointer">A place of it, as a JSON pointer; what is not there is told by its names.</param>
    public static string Of(JsonNode? root, string pointer)
    {
        if (pointer.Length < 2)
        {
            return "the record";
        }

        List<string> words = [];
        var node = root;
        var holder = "";
        foreach (var part in pointer[1..].Split('/').Select(Name))
        {
            if (node is JsonArray items)
            {
                node =
                    int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var index)
                    && index < items.Count
                        ? items[index]
                        : null;
                words[^1] = Item(node) ?? $"{holder} {part}";
                continue;
            }

            holder = Plain(part);
            words.Add(holder);
            node = node is JsonObject members ? members[part] : null;
        }

        return string.Join(", ", words);
    }

    private static string? Item(JsonNode? node)
    {
        if (node is not JsonObject item)
        {
            return null;
        }

        string?[] words =
        [
            Text(item, "event"),
            Text(item, "read"),
            Text(item, "turn") is { } turned ? $"turned {turned}" : null,
            Text(item, "grind"),
            Text(item, "fit") is { } part ? $"fitted {part}" : null,
            Text(item, "station"),
            Text(item, "side"),
            Text(item, "phase") is { } phase ? $"as {phase}" : null,
            Text(item, "source"),
            Text(item, "lock"),
        ];
        var told = string.Join(
            " ",
            words.OfType<string>().Select(word => word.Replace('_', ' ').Replace('-', ' '))
        );
        return told.Length > 0 ? told : Text(item, "id");
    }

    // `signOff`: sign off.
    private static string Plain(string name) =>
        JsonNamingPolicy.KebabCaseLower.ConvertName(name).Replace('-', ' ');

    private static string Name(string part) =>
        part.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);

    private static string? Text(JsonObject holder, string name) =>
        holder[name] is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
}
