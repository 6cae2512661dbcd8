using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>
/// What an editor shows while somebody types: every member, every kind of object and every word of a closed vocabulary
/// says what it means, and where the words are closed they are offered.
/// </summary>
public sealed class SchemaHoverTests
{
    // Conditions, not things to type.
    private static readonly string[] Conditions = ["if", "then", "else", "allOf", "dependentRequired"];

    public static TheoryData<string> Files() =>
        [
            .. Directory
                .GetFiles(ReferenceFiles.InRepository("rules", "schema"))
                .Select(path => Path.GetFileName(path))
                .Order(),
        ];

    [Theory]
    [MemberData(nameof(Files))]
    public void Schema_EveryMember_SaysWhatItIs(string file) =>
        Assert.Equal(
            [],
            Parts(Of(file), "")
                .SelectMany(part =>
                    part.Schema["properties"] is JsonObject members
                        ? members.Select(member =>
                            (Place: $"{part.Place}/properties/{member.Key}", Schema: member.Value!)
                        )
                        : []
                )
                .Where(member => !IsSaid(member.Schema))
                .Select(member => member.Place)
        );

    [Theory]
    [MemberData(nameof(Files))]
    public void Schema_EveryKindOfObject_SaysWhatItIs(string file) =>
        Assert.Equal(
            [],
            (Of(file)["$defs"] as JsonObject ?? [])
                .Where(named => !IsSaid(named.Value!))
                .Select(named => named.Key)
                .Concat(IsSaid(Of(file)) ? [] : ["the document"])
        );

    [Theory]
    [MemberData(nameof(Files))]
    public void Schema_EveryWord_SaysWhatItMeans(string file)
    {
        var parts = Parts(Of(file), "").ToList();
        Assert.Equal(
            [],
            parts
                .Where(part =>
                    part.Schema["enum"] is JsonArray words && (words.Count > 1 || !IsSaid(part.Schema))
                )
                .Select(part => $"{part.Place}: bare words")
                .Concat(
                    parts
                        .Where(part => part.Schema["const"] is not null && !IsSaid(part.Schema))
                        .Select(part => $"{part.Place}: {part.Schema["const"]}")
                )
        );
    }

    /// <summary>A text without a list of its words has a pattern or at least bounds: nothing closed is left open.</summary>
    [Theory]
    [MemberData(nameof(Files))]
    public void Schema_EveryText_IsBounded(string file) =>
        Assert.Equal(
            [],
            Parts(Of(file), "")
                .Where(part =>
                    part.Schema["type"] is JsonValue type
                    && (string?)type == "string"
                    && part.Schema["maxLength"] is null
                )
                .Where(part => !part.Place.EndsWith("/$schema", StringComparison.Ordinal))
                .Select(part => part.Place)
        );

    [Fact]
    public void Schema_WordsOfADuty_AreOfferedWithTheirMeaning()
    {
        var duty = Of("rules.schema.json")["$defs"]!["energy-duty"]!["oneOf"]!.AsArray();

        var tool = duty.Single(word => (string?)word!["const"] == "blockage-tool")!;
        Assert.Equal("A blockage was cleared with a tool, never by hand.", (string?)tool["description"]);
    }

    private static JsonObject Of(string file) =>
        JsonNode.Parse(File.ReadAllText(ReferenceFiles.InRepository("rules", "schema", file)))!.AsObject();

    private static bool IsSaid(JsonNode schema) => !string.IsNullOrWhiteSpace((string?)schema["description"]);

    private static IEnumerable<(string Place, JsonObject Schema)> Parts(JsonNode node, string place)
    {
        if (node is JsonObject schema)
        {
            yield return (place, schema);
            foreach (var (name, part) in schema)
            {
                if (!Conditions.Contains(name) && part is not null)
                {
                    foreach (var below in Parts(part, $"{place}/{name}"))
                    {
                        yield return below;
                    }
                }
            }
        }
        else if (node is JsonArray list)
        {
            for (var at = 0; at < list.Count; at++)
            {
                foreach (var below in list[at] is { } part ? Parts(part, $"{place}/{at}") : [])
                {
                    yield return below;
                }
            }
        }
    }
}
