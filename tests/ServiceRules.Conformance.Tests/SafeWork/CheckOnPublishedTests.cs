using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// The thirty published timelines as records on file, through the command line: exactly the rows that were listed by hand
/// come out, by the rules that the United States pack cites for them.
/// </summary>
public sealed class CheckOnPublishedTests
{
    public static TheoryData<string> Names() => [.. PublishedTimeline.Names()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Check_PublishedTimeline_ShowsExactlyTheListedRows(string name)
    {
        PublishedTimeline told = PublishedTimeline.Read(name);
        using Product product = new();
        string rules = SiteFolder.Write(
            product,
            ReferenceFiles.ReadText("safety", "records", $"{name}.context.json")
        );
        string record = ReferenceFiles.At("safety", "records", $"{name}.record.json");

        ProductOutcome outcome = product.Run("check", record, "--rules", rules, "--format", "json");

        Assert.True(outcome.ExitCode is 0 or 1, outcome.StandardError);
        List<(string Row, string Shown)> rows = Rows(JsonNode.Parse(outcome.StandardOutput)!);
        Assert.Equal(
            told.Breaches.Order(StringComparer.Ordinal),
            rows.Select(row => row.Row).Distinct().Order(StringComparer.Ordinal)
        );
    }

    /// <summary>Rows shown not met; of the rows about credibility, those shown unproven.</summary>
    private static List<(string Row, string Shown)> Rows(JsonNode assessment) =>
        [
            .. from finding in assessment["findings"]!.AsArray()
            let verdict = finding["verdict"]!.GetValue<string>()
            from row in CitedRows.Of(finding["rule"]!.GetValue<string>())
            where verdict == (CitedRows.IsCredibility(row) ? "unproven" : "not-met")
            select (row, finding["statement"]!.GetValue<string>()),
        ];
}
