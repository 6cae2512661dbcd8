using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// A rules folder with the shipped packs and sheets and one site: the site of a frozen context, member by member, so that
/// a record is judged by the command line in that context.
/// </summary>
internal static class SiteFolder
{
    private static readonly string[] OfTheSite = ["jurisdictions", "zone", "lockStyle", "removalException"];

    private static readonly string[] OfTheRegisters =
    [
        "people",
        "locks",
        "waivers",
        "machines",
        "attendance",
        "elsewhere",
    ];

    public static string Write(Product product, string context)
    {
        JsonObject frozen = JsonNode.Parse(context)!.AsObject();
        foreach (string shipped in new[] { "base", "sheets", PublishedTimeline.Jurisdiction })
        {
            Copy(product, shipped);
        }

        JsonObject site = Part("site/1", frozen, OfTheSite);
        site["name"] = frozen["site"]!.DeepClone();
        Write(product, "site.json", site);
        JsonObject registers = Part("registers/1", frozen, OfTheRegisters);
        AddWhoIsOnlyNamed(registers["people"]!.AsArray(), frozen["procedures"]?.AsArray() ?? []);
        Write(product, "registers.json", registers);
        foreach (JsonNode? procedure in frozen["procedures"]?.AsArray() ?? [])
        {
            JsonObject alone = procedure!.DeepClone().AsObject();
            alone["format"] = "procedure/1";
            Write(product, $"procedures/{alone["id"]}.json", alone);
        }

        return product.At("rules");
    }

    /// <summary>Whoever a procedure names must stand in a site's register; the published ones name a few who do not.</summary>
    private static void AddWhoIsOnlyNamed(JsonArray people, JsonArray procedures)
    {
        var named = procedures.SelectMany(procedure =>
            (procedure!["inspection"]?["people"]?.AsArray() ?? [])
                .Append(procedure["inspection"]?["inspector"]?.DeepClone())
                .Concat((procedure["energisedTasks"]?.AsArray() ?? []).Select(task => task!["approvedBy"]))
                .OfType<JsonNode>()
                .Select(person => person.GetValue<string>())
        );
        var known = people.Select(person => person!["id"]!.GetValue<string>());
        foreach (string person in named.Except(known).ToList())
        {
            people.Add(new JsonObject { ["id"] = person, ["authorised"] = false });
        }
    }

    private static JsonObject Part(string format, JsonObject frozen, string[] members)
    {
        JsonObject part = new() { ["format"] = format };
        foreach (string member in members)
        {
            if (frozen[member] is { } value)
            {
                part[member] = value.DeepClone();
            }
        }

        return part;
    }

    private static void Write(Product product, string name, JsonObject document) =>
        product.Write($"rules/site-published/{name}", Encoding.UTF8.GetBytes(document.ToJsonString()));

    private static void Copy(Product product, string folder)
    {
        string from = ReferenceFiles.InRepository("rules", folder);
        foreach (string file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string name = $"rules/{folder}/{Path.GetRelativePath(from, file)}";
            product.Write(name, File.ReadAllBytes(file));
        }
    }
}
