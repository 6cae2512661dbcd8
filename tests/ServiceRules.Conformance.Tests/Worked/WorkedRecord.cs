using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Verdicts;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.Worked;

/// <summary>One record of tests/reference/worked with what its working says must come out.</summary>
internal sealed record WorkedRecord(string Name, string Json, JsonObject Expected)
{
    private const string Folder = "worked";

    private static readonly LoadedRules Rules = RuleFolder.Load(ReferenceFiles.InRepository("rules"));
    private static readonly AssessRecord Assessor = new(Rules.Book, Rules.Site!);

    public static IEnumerable<string> Names() =>
        Directory
            .EnumerateFiles(ReferenceFiles.At(Folder), "*.record.json")
            .Select(file => Path.GetFileName(file).Split('.')[0])
            .Order(StringComparer.Ordinal);

    public static WorkedRecord Read(string name) =>
        new(
            name,
            ReferenceFiles.ReadText(Folder, $"{name}.record.json"),
            JsonNode.Parse(ReferenceFiles.ReadText(Folder, $"{name}.expected.json"))!.AsObject()
        );

    public Assessment Judged() => Judged(Json);

    public static Assessment Judged(string record)
    {
        AssessOutcome outcome = Assessor.Assess(Encoding.UTF8.GetBytes(record));
        if (outcome is AssessOutcome.Refused refused)
        {
            Assert.Fail(refused.Problems.ToString());
        }

        return Assert.IsType<AssessOutcome.Judged>(outcome).Assessed.Assessment;
    }

    /// <summary>The expectations of one kind, each with the finding that it speaks of.</summary>
    public IEnumerable<(JsonObject Wanted, Finding Found)> Wanted(string kind, Assessment assessment) =>
        (Expected[kind]?.AsArray() ?? []).Select(node => (node!.AsObject(), FindingOf(node, assessment)));

    private static Finding FindingOf(JsonNode wanted, Assessment assessment) =>
        Assert.Single(
            assessment.Findings,
            finding => finding.Rule == Text(wanted, "rule") && finding.Subject.Key == Text(wanted, "subject")
        );

    public static string? Text(JsonNode node, string member) => node[member]?.GetValue<string>();

    public static string[] Texts(JsonNode node, string member) =>
        [.. node[member]!.AsArray().Select(each => each!.GetValue<string>())];
}
