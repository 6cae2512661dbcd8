using System.Text.Json.Nodes;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Description;

/// <summary>Puts examples into the description, and says what its groups are.</summary>
internal static class DescribedText
{
    private const string RecordResource = "example.record.json";

    private static readonly Dictionary<string, string> Groups = new(StringComparer.Ordinal)
    {
        ["records"] = "Service records: submitting, correcting, reading and listing them.",
        ["judgements"] = "What a record comes to, with nothing stored.",
        ["reports"] = "Signed reports, their proofs, and whether one is genuine.",
        ["registers"] = "What the site keeps besides its records.",
        ["ledger"] = "What checks the log without this product.",
        ["waivers"] = "Rules that are loosened for a time.",
        ["packs"] = "Rules: told, checked, stored, compared, put in force, and judging the history again.",
        ["notices"] = "Who was to be told of holds and stops, and was not.",
        ["exports"] = "Whole lists as files.",
        ["due"] = "What falls due.",
        ["keeping"] = "What is kept, what is forgotten, and what is said of records.",
    };

    /// <summary>An example of what is sent, by the name of its schema.</summary>
    private static readonly Dictionary<string, (string Summary, Func<JsonObject> Value)> Sent = new(
        StringComparer.Ordinal
    )
    {
        ["service-record"] = ("A height check.", Record),
        ["waiver"] = (
            "A target that is not kept in a wet month.",
            () =>
                new JsonObject
                {
                    ["format"] = "waiver/1",
                    ["rule"] = "height-on-target",
                    ["unit"] = "U-02-1",
                    ["by"] = "lead-01",
                    ["reason"] = "the wet spring",
                    ["from"] = "2026-04-01",
                    ["until"] = "2026-04-30",
                }
        ),
        ["export-request"] = (
            "What was found from a day on, as a table.",
            () =>
                new JsonObject
                {
                    ["format"] = "export-request/1",
                    ["what"] = "findings",
                    ["as"] = "csv",
                    ["filter"] = new JsonObject { ["from"] = "2026-04-01" },
                }
        ),
    };

    public static void Complete(JsonObject root)
    {
        foreach (var group in root["tags"]?.AsArray().OfType<JsonObject>() ?? [])
        {
            if (Groups.TryGetValue(group["name"]!.GetValue<string>(), out var said))
            {
                group["description"] = said;
            }
        }

        var examples = new JsonObject();
        foreach (
            var operation in root["paths"]!
                .AsObject()
                .SelectMany(path => path.Value!.AsObject())
                .Select(one => one.Value!)
        )
        {
            foreach (var answer in operation["responses"]!.AsObject().Select(one => one.Value!.AsObject()))
            {
                ShowProblems(answer, examples);
            }

            ShowSent(operation["requestBody"]?["content"]?["application/json"]?.AsObject(), examples);
        }

        root["components"]!["examples"] = examples;
    }

    private static void ShowProblems(JsonObject answer, JsonObject examples)
    {
        if (answer[OperationText.Mark] is not JsonArray names)
        {
            return;
        }

        answer.Remove(OperationText.Mark);
        var shown = new JsonObject();
        foreach (var name in names.Select(name => name!.GetValue<string>()))
        {
            var kind = ProblemKind.All.Single(kind => kind.Name == name);
            examples[name] ??= new JsonObject
            {
                ["summary"] = kind.Title,
                ["value"] = new JsonObject
                {
                    ["type"] = kind.Type,
                    ["title"] = kind.Title,
                    ["status"] = kind.Status,
                    ["detail"] = kind.Title,
                },
            };
            shown[name] = Leading(name);
        }

        answer["content"]![ProblemDocument.MediaType]!["examples"] = shown;
    }

    private static void ShowSent(JsonObject? body, JsonObject examples)
    {
        if (
            body?["schema"]?[References.Word]?.GetValue<string>()[References.Start.Length..] is not { } schema
            || !Sent.TryGetValue(schema, out var example)
        )
        {
            return;
        }

        examples[schema] ??= new JsonObject { ["summary"] = example.Summary, ["value"] = example.Value() };
        body["examples"] = new JsonObject { [schema] = Leading(schema) };
    }

    private static JsonObject Leading(string name) =>
        new() { [References.Word] = "#/components/examples/" + name };

    private static JsonObject Record()
    {
        using var stream = typeof(DescribedText).Assembly.GetManifestResourceStream(RecordResource)!;
        var record = JsonNode.Parse(stream)!.AsObject();
        // Of the file that it comes from, and of no use where this text is read.
        record.Remove("$schema");
        return record;
    }
}
