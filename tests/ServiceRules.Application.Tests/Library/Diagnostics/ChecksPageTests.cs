using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Formats;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>
/// `docs/checks.md` has a section for each kind of check, made from what the reader accepts, what the check can come out as,
/// and a rule of the base pack. `SERVICERULES_ACCEPT=1 dotnet test` writes the page anew.
/// </summary>
public sealed class ChecksPageTests
{
    private static readonly JsonNode Defs = JsonNode.Parse(
        PublishedSchemas.Of(WrittenSummary.Of).Single(one => one.File == "rules.schema.json").Text
    )!["$defs"]!;

    /// <summary>For a kind that the base pack needs no rule of; a site may.</summary>
    private const string Made = """
        {
          "id": "told-before-locked",
          "title": "Told before locked",
          "requirement": "The people affected are told before the first lock goes on.",
          "scope": "job",
          "check": { "kind": "order-of-events", "order": ["affected_notified_before", "lock_applied"] },
          "severity": "advise",
          "unproven": "advise",
          "basis": { "kind": "site-policy" },
          "advice": "Tell the people who use the machine before you lock it."
        }
        """;

    /// <summary>Every rule of the base pack with its text, by the kind of its check.</summary>
    private static readonly ILookup<string, (Rule Rule, string Text)> Base = Directory
        .GetFiles(ReferenceFiles.InRepository("rules", "base"), "*.rules.json")
        .Order(StringComparer.Ordinal)
        .SelectMany(Read)
        .Append((Kind: "order-of-events", Rule: Parsed(JsonNode.Parse(Made)!.AsObject())!, Text: Made))
        .ToLookup(one => one.Kind, one => (one.Rule, one.Text), StringComparer.Ordinal);

    [Fact]
    public void Page_EveryKindOfCheck_IsAsTheReaderHasIt()
    {
        string path = Path.Combine(ReferenceFiles.Root, "docs", "checks.md");
        string page = Page();
        if (TestRun.IsAccepting)
        {
            File.WriteAllText(path, page);
        }

        Assert.Equal(File.Exists(path) ? File.ReadAllText(path) : "", page);
    }

    /// <summary>Each kind but one is shown by a rule that people are held to.</summary>
    [Fact]
    public void BasePack_EveryKindOfCheck_HasARule() =>
        Assert.Equal(Kinds().Select(kind => kind.Word).Order(), Base.Select(group => group.Key).Order());

    private static string Page()
    {
        StringBuilder page = new(
            """
            # Kinds of checks

            One section for each `kind` that the `check` of a rule may have: its members, what each accepts, what a rule with it can come
            out as, and a rule of the base pack as it stands in its file. Lengths are texts with their unit, as printed
            (`"0.050 mm"`, `"0.002 in"`); one length may have two prints: `{ "governing": "0.010 in", "printed": "0.25 mm" }`. What a
            rule says besides its check stands in [rule-authoring.md](rule-authoring.md), how each comes to its verdict in
            [verdicts.md](verdicts.md). A test makes this page from the definitions that read the rules.

            A rule without `decision` guards each limit by the whole expanded uncertainty (`guarded`); one without `unproven` holds what
            cannot be decided (`hold`); one without `when` applies always.

            | kind | what |
            |---|---|

            """
        );
        foreach (var (word, said) in Kinds())
        {
            page.Append(CultureInfo.InvariantCulture, $"| [{word}](#{word}) | {said} |\n");
        }

        foreach (var (word, said) in Kinds())
        {
            Section(page, word, said);
        }

        return page.ToString();
    }

    private static void Section(StringBuilder page, string kind, string said)
    {
        var rules = Base[kind].ToList();
        page.Append(CultureInfo.InvariantCulture, $"\n## {kind}\n\n{said}\n");
        page.Append(
            CultureInfo.InvariantCulture,
            $"\nJudged on the {Listed(rules.Select(one => Word(one.Rule.Scope)), " or the ")}; comes out {Verdicts(rules)}.\n"
        );
        JsonObject members = Defs[kind]!["properties"]!.AsObject();
        string[] required = [.. Defs[kind]!["required"]!.AsArray().Select(name => (string)name!)];
        var own = members.Where(member => member.Key != "kind").ToList();
        if (own.Count > 0)
        {
            page.Append("\n| member | what | accepts |\n|---|---|---|\n");
        }

        foreach (var (name, schema) in own)
        {
            string optional = required.Contains(name) ? "" : " (may be left out)";
            page.Append(
                CultureInfo.InvariantCulture,
                $"| `{name}`{optional} | {schema!["description"]} | {Accepts(kind, name, schema.AsObject())} |\n"
            );
        }

        foreach (var (name, schema) in own.Where(member => member.Key is not ("quantity" or "other")))
        {
            Words(page, name, Resolved(schema!.AsObject()));
        }

        page.Append(CultureInfo.InvariantCulture, $"\n{InBase(rules)}\n\n```json\n{rules[0].Text}\n```\n");
    }

    private static string InBase(List<(Rule Rule, string Text)> rules) =>
        rules[0].Text == Made ? "The base pack needs no rule of this kind; one of a site could be:"
        : rules.Count == 1 ? "The one rule of the base pack with it:"
        : "A rule of the base pack with it:";

    private static void Words(StringBuilder page, string name, JsonObject schema)
    {
        JsonObject of = (string?)schema["type"] == "array" ? Resolved(schema["items"]!.AsObject()) : schema;
        if (of["oneOf"] is not JsonArray words || words[0]!["const"] is null || name is "events" or "order")
        {
            return;
        }

        page.Append(CultureInfo.InvariantCulture, $"\n| `{name}` | means |\n|---|---|\n");
        foreach (JsonNode? word in words)
        {
            page.Append(CultureInfo.InvariantCulture, $"| `{word!["const"]}` | {word["description"]} |\n");
        }
    }

    private static string Accepts(string kind, string name, JsonObject schema)
    {
        JsonObject full = Resolved(schema);
        if (name is "quantity" or "other")
        {
            return Listed(Fitting(kind, name).Select(word => $"`{word}`"), ", ");
        }

        if ((string?)full["type"] == "array")
        {
            JsonObject item = Resolved(full["items"]!.AsObject());
            return $"a list of {full["minItems"] ?? 0} to {full["maxItems"]} of: "
                + Listed(item["oneOf"]!.AsArray().Select(word => $"`{word!["const"]}`"), ", ");
        }

        if (full["oneOf"] is JsonArray words && words[0]!["const"] is not null)
        {
            return "one of the words below";
        }

        return (string?)full["type"] switch
        {
            "number" => $"a number from {full["minimum"]} to {full["maximum"]}",
            _ => "a length, or a pair of prints",
        };
    }

    /// <summary>The quantities that a check can judge: those of which the pack check says nothing.</summary>
    private static IEnumerable<string> Fitting(string kind, string member) =>
        Enum.GetValues<MeasuredQuantity>()
            .Select(Choices.WordOf)
            .Where(word =>
            {
                JsonObject rule = JsonNode.Parse(Base[kind].First().Text)!.AsObject();
                JsonObject check = rule["check"]!.AsObject();
                if (member == "quantity" && (string?)check["other"] == word)
                {
                    return true;
                }

                if (member == "other" && (string?)check["quantity"] == word)
                {
                    return false;
                }

                check[member] = word;
                return Parsed(rule) is { } read
                    && !PackCheck
                        .Of(Holding(read))
                        .Any(remark => remark.Code == DiagnosticCode.QuantityDoesNotFit);
            });

    private static RuleLibrary Holding(Rule rule) =>
        new()
        {
            Packs =
            [
                new(
                    new()
                    {
                        Id = new("one"),
                        Version = "1",
                        Title = "one",
                        Layer = PackLayer.Base,
                        Rules = [rule],
                    },
                    "pack.json",
                    [new(rule, "a.rules.json", "/rules/0")]
                ),
            ],
        };

    private static Rule? Parsed(JsonObject rule)
    {
        JsonObject file = new() { ["format"] = "rules/1", ["rules"] = new JsonArray(rule) };
        return RulePackFormat
            .Rules.Read(Encoding.UTF8.GetBytes(file.ToJsonString()))
            .TryGet(out var read, out _)
            ? read.Rules[0]
            : null;
    }

    private static string Verdicts(List<(Rule Rule, string Text)> rules)
    {
        var all = rules.Select(one => ReachableVerdicts.Of(one.Rule.Check)).ToList();
        string words(IEnumerable<Domain.Verdicts.Verdict> verdicts) =>
            Listed(verdicts.Select(verdict => Word(verdict).Replace('-', ' ')), " or ");
        return all.TrueForAll(one => one.SequenceEqual(all[0]))
            ? words(all[0])
            : words(all.SelectMany(one => one).Distinct().Order()) + ", not each of them for every word";
    }

    private static IEnumerable<(string Word, string Said)> Kinds() =>
        Defs["check"]!["properties"]!["kind"]!["oneOf"]!
            .AsArray()
            .Select(kind => ((string)kind!["const"]!, (string)kind["description"]!));

    private static JsonObject Resolved(JsonObject schema) =>
        schema["$ref"] is { } named ? Defs[((string)named!)["#/$defs/".Length..]]!.AsObject() : schema;

    private static string Listed(IEnumerable<string> words, string joint) =>
        string.Join(joint, words.Distinct(StringComparer.Ordinal));

    private static string Word<T>(T value)
        where T : struct, Enum =>
        string.Concat(
            value
                .ToString()
                .Select(
                    (letter, at) =>
                        char.IsAsciiLetterUpper(letter)
                            ? (at > 0 ? "-" : "") + char.ToLowerInvariant(letter)
                            : letter.ToString()
                )
        );

    /// <summary>The rules of a file, each with the lines that state it.</summary>
    private static IEnumerable<(string Kind, Rule Rule, string Text)> Read(string file)
    {
        string[] lines = File.ReadAllLines(file);
        Assert.True(
            RulePackFormat.Rules.Read(File.ReadAllBytes(file)).TryGet(out var read, out var wrong),
            wrong.ToString()
        );
        int rule = 0;
        for (int line = 0; line < lines.Length; line++)
        {
            if (lines[line] == "    {")
            {
                int end = Array.FindIndex(lines, line, text => text is "    }" or "    },");
                string text = string.Join('\n', lines[line..end].Select(one => one[4..])) + "\n}";
                yield return ((string)JsonNode.Parse(text)!["check"]!["kind"]!, read.Rules[rule++], text);
                line = end;
            }
        }
    }
}
