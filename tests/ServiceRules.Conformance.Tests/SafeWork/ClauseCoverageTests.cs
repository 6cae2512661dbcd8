using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Oracle.SafeWork;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>The clause table, the rules and the citations held against one another.</summary>
public sealed class ClauseCoverageTests
{
    private static readonly JsonArray Table = JsonNode.Parse(
        ReferenceFiles.ReadText("safety", "lockout-clauses.json")
    )!["rows"]!.AsArray();

    private static readonly List<JsonNode> Rules =
    [
        .. Directory
            .EnumerateFiles(ReferenceFiles.InRepository("rules", "base"), "*.rules.json")
            .SelectMany(file => JsonNode.Parse(File.ReadAllText(file))!["rules"]!.AsArray())
            .Select(rule => rule!),
    ];

    [Fact]
    public void Rows_ThatARecordOrRegisterCanShow_AreEachCitedForARule() =>
        Assert.Empty(Detectable().Except(CitedRows.All));

    [Fact]
    public void Rows_Cited_AreAllInTheTable() =>
        Assert.Empty(CitedRows.All.Except(Table.Select(row => PublishedTimeline.Text(row, "id")!)));

    [Fact]
    public void Rules_Cited_AreAllInTheBasePack() =>
        Assert.Empty(
            CitedRows
                .Rules.Concat(CredibilityRules.ByRow.Values)
                .Except(Rules.Select(rule => PublishedTimeline.Text(rule, "id")!))
        );

    [Fact]
    public void Rules_OfEnergyControl_HaveACitationOrAnotherBasis() =>
        Assert.Empty(
            Rules
                .Where(rule => PublishedTimeline.Text(rule["check"], "kind") == "energy-control")
                .Where(rule => !CitedRows.Of(PublishedTimeline.Text(rule, "id")!).Any())
                .Where(rule => PublishedTimeline.Text(rule["basis"], "kind") is null)
                .Select(rule => PublishedTimeline.Text(rule, "id"))
        );

    [Fact]
    public void Rules_InTheBasePack_NameNoRowOfTheTable()
    {
        string written = string.Concat(Rules.Select(rule => rule.ToJsonString()));

        Assert.All(
            Table.Select(row => PublishedTimeline.Text(row, "id")!),
            row => Assert.DoesNotContain($"\"{row}\"", written, StringComparison.Ordinal)
        );
    }

    /// <summary>The text of one country is cited by the pack of that country, where a site has chosen it.</summary>
    [Fact]
    public void Rules_OfEnergyControl_CiteNoTextOfOneCountry() =>
        Assert.Empty(
            Rules
                .Where(rule => PublishedTimeline.Text(rule["check"], "kind") == "energy-control")
                .Where(rule => rule["basis"]!.ToJsonString().Contains("CFR", StringComparison.Ordinal))
                .Select(rule => PublishedTimeline.Text(rule, "id"))
        );

    [Fact]
    public void Opinions_OfTheOracle_CoverEveryRowThatCanBeShown() =>
        Assert.Equal(
            Detectable().Order(StringComparer.Ordinal),
            SafeWorkOpinion.AllRows.Order(StringComparer.Ordinal)
        );

    [Fact]
    public void Citations_OfARow_GiveTheClauseOfTheTable()
    {
        Dictionary<string, List<string>> clauses = Table.ToDictionary(
            row => PublishedTimeline.Text(row, "id")!,
            row => Paragraphs(PublishedTimeline.Text(row, "clause")!).ToList()
        );

        Assert.Empty(
            from cited in CitedRows.Citations
            from row in cited.Rows
            where !CitedRows.IsCredibility(row)
            where !cited.Clauses.Any(clause => Paragraphs(clause).Intersect(clauses[row]).Any())
            select $"{row} is {clauses[row][0]}, cited for {cited.Rule}: {string.Join(", ", cited.Clauses)}"
        );
    }

    private static IEnumerable<string> Detectable() =>
        Table
            .Where(row => PublishedTimeline.Text(row, "detectability") is "timeline" or "register")
            .Select(row => PublishedTimeline.Text(row, "id")!);

    /// <summary>
    /// The first paragraph that a clause names, without the words around it: <c>(e)(3)(i)</c>; of a range its first
    /// paragraph, and the one above that holds it all.
    /// </summary>
    private static IEnumerable<string> Paragraphs(string clause)
    {
        string first = clause.Split(',')[0];
        string[] steps =
        [
            .. Regex.Matches(first.Split('-')[0], @"\([A-Za-z0-9]{1,4}\)").Select(match => match.Value),
        ];
        yield return string.Concat(steps);
        if (first.Contains('-', StringComparison.Ordinal))
        {
            yield return string.Concat(steps.SkipLast(1));
        }
    }
}
