using System.Text.Json.Nodes;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>Every document that the repository ships is read, and writing it states the same document again.</summary>
public sealed class RepositoryDocumentTests
{
    private static readonly Dictionary<string, Func<byte[], (string Problems, byte[]? Written)>> Formats =
        new(StringComparer.Ordinal)
        {
            ["service-record/1"] = bytes => Through(RecordFormat.Current, bytes),
            ["limit-sheet/1"] = bytes => Through(LimitSheetFormat.Current, bytes),
            ["rule-pack/1"] = bytes => Through(RulePackFormat.Head, bytes),
            ["rules/1"] = bytes => Through(RulePackFormat.Rules, bytes),
            ["citations/1"] = bytes => Through(RulePackFormat.Citations, bytes),
            ["rule-cases/1"] = bytes => Through(RuleCasesFormat.Current, bytes),
            ["site/1"] = bytes => Through(SiteFormat.Site, bytes),
            ["registers/1"] = bytes => Through(SiteFormat.Registers, bytes),
            ["procedure/1"] = bytes => Through(SiteFormat.Procedure, bytes),
            ["setting-order/1"] = bytes => Through(SettingOrderFormat.Current, bytes),
            ["assessment-context/1"] = bytes => Through(ContextFormat.Current, bytes),
        };

    public static TheoryData<string> Documents()
    {
        TheoryData<string> documents = [];
        string rules = ReferenceFiles.InRepository("rules");
        foreach (
            string path in Directory
                .GetFiles(rules, "*.json", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal)
        )
        {
            string name = Path.GetRelativePath(rules, path).Replace('\\', '/');
            if (!name.StartsWith("schema/", StringComparison.Ordinal))
            {
                documents.Add(name);
            }
        }

        return documents;
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void Read_ShippedDocument_LosesNothing(string name)
    {
        byte[] bytes = File.ReadAllBytes(ReferenceFiles.InRepository("rules", name));
        JsonNode shipped = JsonNode.Parse(bytes)!;
        (string problems, byte[]? written) = Formats[shipped["format"]!.GetValue<string>()](bytes);
        Assert.True(written is not null, problems);
        Assert.True(SameButForDefaults(shipped, JsonNode.Parse(written)!), name);
    }

    private static (string Problems, byte[]? Written) Through<T>(DocumentFormat<T> format, byte[] bytes)
        where T : notnull =>
        format.Read(bytes).TryGet(out T? value, out ProblemReport problems)
            ? ("", format.Write(value))
            : (problems.ToString(), null);

    /// <summary>What is not written again is an empty list, false, or a stated default word.</summary>
    private static bool SameButForDefaults(JsonNode? shipped, JsonNode? written) =>
        (shipped, written) switch
        {
            (JsonObject a, JsonObject b) => b.All(m => a.ContainsKey(m.Key))
                && a.All(m =>
                    m.Key == "$schema"
                    || (b.ContainsKey(m.Key) ? SameButForDefaults(m.Value, b[m.Key]) : IsDefault(m.Value))
                ),
            (JsonArray a, JsonArray b) => a.Count == b.Count
                && a.Zip(b).All(pair => SameButForDefaults(pair.First, pair.Second)),
            _ => JsonNode.DeepEquals(shipped, written),
        };

    private static bool IsDefault(JsonNode? value) =>
        value is JsonArray { Count: 0 }
        || value?.ToJsonString()
            is "false"
                or "\"hold\""
                or "\"guarded\""
                or "\"either\""
                or "\"on-machine\""
                or "\"at-the-time\"";
}
