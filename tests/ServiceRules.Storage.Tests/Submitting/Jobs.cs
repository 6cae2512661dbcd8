using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>Records to submit: the fixture of a height check that ships with the rules, under identities of their own.</summary>
internal static class Jobs
{
    private static readonly Lazy<LoadedRules> Rules = new(() =>
        RuleFolder.Load(ReferenceFiles.InRepository("rules"))
    );

    private static readonly Lazy<string> Fixture = new(() =>
        File.ReadAllText(ReferenceFiles.InRepository("rules", "base", "fixtures", "height-check.record.json"))
    );

    public static AssessRecord Judging { get; } = new(Rules.Value.Book, Rules.Value.Site!);

    public static byte[] Job(string id, Action<JsonObject>? change = null)
    {
        var record = JsonNode.Parse(Fixture.Value)!.AsObject();
        record["id"] = id;
        change?.Invoke(record);
        return Encoding.UTF8.GetBytes(record.ToJsonString());
    }

    public static void Mend(JsonObject job) => job["units"]![0]!["entries"]![0]!["value"] = "3.81 mm";

    public static void LeaveOpen(JsonObject job)
    {
        _ = job.Remove("signOff");
        _ = job.Remove("followUp");
    }
}
