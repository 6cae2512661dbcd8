using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// Which members of an object must or may stand together. Unlike a relation between values, it can be told while
/// other members are wrong, and a schema can say it.
/// </summary>
/// <param name="Holds">Whether an object keeps the rule.</param>
/// <param name="At">The member at which a breach is reported when it is there; else at the object.</param>
/// <param name="State">The rule as a schema.</param>
internal sealed record PresenceRule(
    Func<SourceNode, bool> Holds,
    string? At,
    string What,
    string Accepted,
    Func<JsonObject> State
)
{
    public static PresenceRule ExactlyOne(string[] names) =>
        new(
            node => names.Count(name => node.Member(name) is not null) == 1,
            null,
            names.Length == 1 ? $"`{names[0]}` is missing" : "exactly one of these members is needed",
            Listed(names),
            () => new JsonObject { ["oneOf"] = new JsonArray([.. names.Select(Requiring)]) }
        );

    public static PresenceRule Needs(string name, string other) =>
        new(
            node => node.Member(name) is null || node.Member(other) is not null,
            name,
            $"`{name}` needs `{other}` beside it",
            "both, or neither",
            () => new JsonObject { ["dependentRequired"] = new JsonObject { [name] = new JsonArray(other) } }
        );

    /// <summary>When the member <paramref name="marker"/> says one of the words, the other member must be there.</summary>
    public static PresenceRule NeededFor(string marker, string[] words, string name) =>
        new(
            node =>
                node.Member(marker) is not { Kind: SourceKind.Text } word
                || !words.Contains(word.Content)
                || node.Member(name) is not null,
            marker,
            $"this needs `{name}` beside it",
            $"`{name}`, or another `{marker}`",
            () =>
                new JsonObject
                {
                    ["if"] = new JsonObject
                    {
                        ["properties"] = new JsonObject
                        {
                            [marker] = new JsonObject
                            {
                                ["enum"] = new JsonArray([.. words.Select(word => JsonValue.Create(word))]),
                            },
                        },
                        ["required"] = new JsonArray(marker),
                    },
                    ["then"] = Requiring(name),
                }
        );

    /// <summary>A member may stand only where the member <paramref name="marker"/> says one of the words.</summary>
    public static PresenceRule OnlyFor(string marker, string[] words, string name) =>
        new(
            node =>
                node.Member(name) is null
                || node.Member(marker) is not { Kind: SourceKind.Text } word
                || words.Contains(word.Content),
            name,
            $"this says nothing of such an entry: `{name}` stands where `{marker}` is {string.Join(" or ", words.Select(word => $"`{word}`"))}",
            $"no `{name}`, or another `{marker}`",
            () =>
                new JsonObject
                {
                    ["if"] = Requiring(name),
                    ["then"] = new JsonObject
                    {
                        ["properties"] = new JsonObject
                        {
                            [marker] = new JsonObject
                            {
                                ["enum"] = new JsonArray([.. words.Select(word => JsonValue.Create(word))]),
                            },
                        },
                    },
                }
        );

    private static string Listed(string[] names) => string.Join(", ", names.Select(name => $"`{name}`"));

    private static JsonObject Requiring(string name) => new() { ["required"] = new JsonArray(name) };
}
