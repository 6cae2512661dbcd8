using System.Text;
using System.Text.Json.Nodes;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Application.Authoring;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Authoring;

/// <summary>What says the same is written the same, and says the same afterwards.</summary>
public sealed class CanonicalRulesTests
{
    private static readonly string[] Shipped =
    [
        .. CanonicalRules.FilesOf(ReferenceFiles.InRepository("rules"), out _),
    ];

    public static TheoryData<string> Files =>
        [.. Shipped.Select(file => Path.GetRelativePath(ReferenceFiles.InRepository("rules"), file))];

    private static string At(string file) => ReferenceFiles.InRepository("rules", file);

    private static string Canonical(string path, string text)
    {
        var form = CanonicalRules.Of(path, Encoding.UTF8.GetBytes(text));
        Assert.Equal([], form.Problems.Lines());
        return Encoding.UTF8.GetString(form.Canonical.Span);
    }

    [Fact]
    public void FilesOf_ShippedFolder_AreAllButFixturesAndSchemas()
    {
        var all = Directory
            .EnumerateFiles(ReferenceFiles.InRepository("rules"), "*.json", SearchOption.AllDirectories)
            .Count(file =>
                !file.Contains("/schema/", StringComparison.Ordinal)
                && !file.Contains("/fixtures/", StringComparison.Ordinal)
            );
        Assert.Equal(all, Shipped.Length);
    }

    /// <summary>`servicerules rules format rules` writes them so.</summary>
    [Fact]
    public void Of_ShippedFiles_AreCanonical() =>
        Assert.Equal(
            [],
            Shipped.Where(file => !CanonicalRules.Of(file, File.ReadAllBytes(file)).IsCanonical)
        );

    [Theory]
    [MemberData(nameof(Files))]
    public void Of_ShippedFile_SaysTheSameAsAPlainReaderSees(string file)
    {
        var before = File.ReadAllText(At(file));
        var after = Canonical(At(file), before);
        Assert.Equal(after, Canonical(At(file), after));
        Assert.True(
            JsonNode.DeepEquals(
                WithoutDefaults(JsonNode.Parse(before)),
                WithoutDefaults(JsonNode.Parse(after))
            ),
            $"{file} says something else"
        );
        Assert.EndsWith("}\n", after, StringComparison.Ordinal);
        Assert.False(after.EndsWith("\n\n", StringComparison.Ordinal));
    }

    /// <summary>However the members stand and the lines break, the canonical form is the same.</summary>
    [Property(MaxTest = 60)]
    public Property Of_MembersShuffledAndLinesBrokenOtherwise_IsTheSame() =>
        Prop.ForAll(
            Gen.Choose(0, Shipped.Length - 1).Zip(Gen.Choose(0, int.MaxValue)).ToArbitrary(),
            drawn =>
            {
                var path = Shipped[drawn.Item1];
                var text = File.ReadAllText(path);
                var random = new Random(drawn.Item2);
                var shuffled = Shuffled(JsonNode.Parse(text)!, random)!
                    .ToJsonString(new() { WriteIndented = random.Next(2) == 0 });
                Assert.Equal(Canonical(path, text), Canonical(path, shuffled));
            }
        );

    /// <summary>Whatever people write in words comes through, and a second time changes nothing.</summary>
    [Property(MaxTest = 200)]
    public void Of_AnyWords_KeepsThemAndIsIdempotent(NonEmptyString words)
    {
        var name = new string([.. words.Get.Where(letter => !char.IsSurrogate(letter))]);
        var path = At("base/clearance.cases.json");
        var document = JsonNode.Parse(File.ReadAllText(path))!;
        document["cases"]![0]!["name"] = name;
        var form = CanonicalRules.Of(path, Encoding.UTF8.GetBytes(document.ToJsonString()));
        if (!form.Problems.IsEmpty)
        {
            return;
        }

        var text = Encoding.UTF8.GetString(form.Canonical.Span);
        Assert.Equal(name, (string?)JsonNode.Parse(text)!["cases"]![0]!["name"]);
        Assert.Equal(text, Canonical(path, text));
    }

    [Fact]
    public void Of_WhatIsSaidByLeavingItOut_IsLeftOut()
    {
        var path = At("base/pack.json").Replace("pack.json", "more.rules.json", StringComparison.Ordinal);
        var text = Canonical(
            path,
            """
            { "rules": [ { "advice": "Look.", "basis": { "kind": "derived" }, "unproven": "hold", "decision": { "kind": "guarded", "factor": 1 },
              "severity": "hold", "check": { "quantity": "guards", "kind": "sound-condition" }, "scope": "unit", "when": { "tasks": [ "grind" ], "sheets": [] },
              "requirement": "Guards are whole.", "title": "Guards", "id": "guards-whole" } ], "format": "rules/1" }
            """
        );
        Assert.Equal(
            """
            {
              "format": "rules/1",
              "rules": [
                {
                  "id": "guards-whole",
                  "title": "Guards",
                  "requirement": "Guards are whole.",
                  "when": { "tasks": ["grind"] },
                  "scope": "unit",
                  "check": { "kind": "sound-condition", "quantity": "guards" },
                  "severity": "hold",
                  "basis": { "kind": "derived" },
                  "advice": "Look."
                }
              ]
            }

            """,
            text
        );
    }

    [Fact]
    public void Of_FileThatDoesNotRead_HasNoFormAndEveryProblem()
    {
        var form = CanonicalRules.Of(
            At("site-alder-reach/site.json"),
            Encoding.UTF8.GetBytes("""{ "format": "site/1", "nam": "x" }""")
        );
        Assert.True(form.Problems.Told.Length >= 2);
        Assert.True(form.Canonical.IsEmpty);
    }

    // Empty lists and other defaults say nothing.
    private static JsonNode? WithoutDefaults(JsonNode? node) =>
        node switch
        {
            JsonObject members => new JsonObject(
                members
                    .Where(member => !IsDefault(member.Key, member.Value))
                    .Select(member => KeyValuePair.Create(member.Key, WithoutDefaults(member.Value)))
            ),
            JsonArray items => new JsonArray([.. items.Select(WithoutDefaults)]),
            null => null,
            _ => node.DeepClone(),
        };

    private static bool IsDefault(string name, JsonNode? value) =>
        value is JsonArray { Count: 0 }
        || (name, value?.ToString())
            is
                ("unproven", "hold")
                or
                ("decision", "guarded")
                or
                ("mayRelease" or "stored" or "lockable", "false");

    private static JsonNode? Shuffled(JsonNode? node, Random random) =>
        node switch
        {
            JsonObject members => new JsonObject(
                members
                    .OrderBy(_ => random.Next())
                    .ToList()
                    .Select(member =>
                        // What a patch puts into a record is no part of the rules, and stands as it was written.
                        KeyValuePair.Create(
                            member.Key,
                            member.Key == "value" ? member.Value?.DeepClone() : Shuffled(member.Value, random)
                        )
                    )
            ),
            JsonArray items => new JsonArray([.. items.Select(item => Shuffled(item, random))]),
            null => null,
            _ => node.DeepClone(),
        };
}
