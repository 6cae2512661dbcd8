using System.Text.Json.Nodes;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>The named parts of one schema document. Each is stated once and referred to from wherever it is used.</summary>
public sealed class SchemaDefinitions
{
    private readonly SortedDictionary<string, JsonObject> stated = new(StringComparer.Ordinal);
    private readonly Dictionary<string, object> owners = new(StringComparer.Ordinal);
    private readonly Func<Enum, string?> said;

    /// <param name="said">What a word of a closed vocabulary means, as hover text; null: it is stated bare.</param>
    internal SchemaDefinitions(Func<Enum, string?>? said = null) => this.said = said ?? (_ => null);

    /// <summary>What a word of a closed vocabulary means, or null.</summary>
    internal string? SaidOf(Enum word) => said(word);

    /// <summary>A reference to the part of that name, which is stated on first use.</summary>
    /// <exception cref="InvalidOperationException">Two different shapes have the same name.</exception>
    public JsonObject Refer(string name, object shape, Func<JsonObject> state)
    {
        if (owners.TryAdd(name, shape))
        {
            stated[name] = state();
        }
        else if (!ReferenceEquals(owners[name], shape))
        {
            throw new InvalidOperationException($"two shapes are both named `{name}`");
        }

        return new JsonObject { ["$ref"] = "#/$defs/" + name };
    }

    internal JsonObject ToSchema()
    {
        JsonObject all = [];
        foreach ((string name, JsonObject schema) in stated)
        {
            all[name] = schema;
        }

        return all;
    }
}
