using System.Text.Json.Nodes;
using ServiceRules.Oracle.SafeWork;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// Which rows of the clause table the United States pack cites for each rule, read as plain JSON, and beside them the rows
/// about credibility.
/// </summary>
internal static class CitedRows
{
    public static IReadOnlyList<(string Rule, string[] Rows, string[] Clauses)> Citations { get; } =
    [
        .. from file in Directory.EnumerateFiles(
            ReferenceFiles.InRepository("rules", PublishedTimeline.Jurisdiction),
            "*.citations.json"
        )
        from citation in JsonNode.Parse(File.ReadAllText(file))!["citations"]!.AsArray()
        select (
            citation["rule"]!.GetValue<string>(),
            PublishedTimeline.Texts(citation["rows"]).ToArray(),
            PublishedTimeline.Texts(citation["clauses"]).ToArray()
        ),
    ];

    public static IEnumerable<string> Rules => Citations.Select(cited => cited.Rule);

    public static IEnumerable<string> All =>
        Citations.SelectMany(cited => cited.Rows).Concat(CredibilityRules.ByRow.Keys).Distinct();

    public static IEnumerable<string> Of(string rule) =>
        Citations
            .Where(cited => cited.Rule == rule)
            .SelectMany(cited => cited.Rows)
            .Concat(CredibilityRules.ByRow.Where(row => row.Value == rule).Select(row => row.Key));

    public static bool IsCredibility(string row) => row.StartsWith("cred.", StringComparison.Ordinal);
}
