using System.Text.Json.Nodes;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// The schema of a closed vocabulary. Words whose meaning is known are stated one by one, each with it, which is how editors
/// show it beside the word that they offer; otherwise the words stand in one list.
/// </summary>
internal static class WordSchema
{
    public static JsonObject Of(IEnumerable<(string Word, string? Said)> words)
    {
        List<(string Word, string? Said)> all = [.. words];
        return all.TrueForAll(one => one.Said is null)
            ? new() { ["enum"] = new JsonArray([.. all.Select(one => JsonValue.Create(one.Word))]) }
            : new() { ["oneOf"] = new JsonArray([.. all.Select(one => One(one.Word, one.Said))]) };
    }

    private static JsonObject One(string word, string? said)
    {
        JsonObject schema = new() { ["const"] = word };
        if (said is not null)
        {
            schema["description"] = said;
        }

        return schema;
    }
}
