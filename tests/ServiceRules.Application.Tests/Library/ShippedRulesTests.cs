using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library;

/// <summary>The rules that the repository ships load, and nothing is wrong with them.</summary>
public sealed class ShippedRulesTests
{
    private static readonly Lazy<RulesTested> Tested = new(() => TestRules.Run(Loaded!));

    private static readonly LoadedRules Loaded = RuleFolder.Load(ReferenceFiles.InRepository("rules"));

    [Fact]
    public void Load_ShippedFolder_IsSound()
    {
        Assert.Equal(
            [],
            Loaded
                .Diagnostics.Where(remark => remark.Level is DiagnosticLevel.Error)
                .Select(remark => remark.ToString())
        );
        Assert.NotNull(Loaded.Site);
    }

    /// <summary>The trade itself prints 0.012 mm beside 0.0005 in, and 1.5 mm beside 1/16 in: told, and left alone.</summary>
    [Fact]
    public void Load_ShippedFolder_TellsOnlyPrintsThatTheTradeHasApart() =>
        Assert.All(Loaded.Diagnostics, remark => Assert.Equal(DiagnosticCode.PrintsFarApart, remark.Code));

    [Fact]
    public void Test_ShippedCases_AllComeOutAsTheySay()
    {
        RulesTested tested = Tested.Value;
        Assert.Equal(
            [],
            tested
                .Cases.Where(result => result.Outcome is not CaseOutcome.AsExpected)
                .Select(result =>
                    $"{result.Case.File}:{result.Case.Line} {result.Case.Case.Rule}, {result.Case.Case.Name}: {result.Outcome} {result.Found} {result.Told}"
                )
        );
        Assert.True(tested.Cases.Length >= 3 * Loaded.Book.Packs.Sum(pack => pack.Rules.Length));
    }

    [Fact]
    public void Test_ShippedFixtures_MayGoOutAsTheyStand() =>
        Assert.Equal(
            [],
            Tested
                .Value.Fixtures.Where(one => !one.IsReleased)
                .Select(one => $"{one.File}: {string.Join("; ", one.Told)}")
        );

    [Fact]
    public void Load_BaseRules_RestOnNoTextOfAJurisdiction()
    {
        var texts = Loaded
            .Book.Packs.SelectMany(pack => pack.Citations)
            .Select(citation => citation.Source)
            .Concat(
                Loaded
                    .Book.Packs.Where(pack => pack.Layer == PackLayer.Jurisdiction)
                    .Select(pack => pack.Title)
            )
            .ToList();

        Assert.NotEmpty(texts);
        Assert.All(
            Loaded.Book.Packs.Where(pack => pack.Layer == PackLayer.Base).SelectMany(pack => pack.Rules),
            rule =>
                Assert.DoesNotContain(
                    texts,
                    text =>
                        rule.Basis.Source is { } source
                        && text.Contains(source, StringComparison.OrdinalIgnoreCase)
                )
        );
    }

    [Fact]
    public void Check_ShippedFolder_CountsWhatItRead()
    {
        RulesChecked read = CheckRules.Run(ReferenceFiles.InRepository("rules"));
        Assert.True(read.IsSound);
        Assert.Equal(
            (10, InFiles("*.rules.json", "rules"), 3, InFiles("*.cases.json", "cases")),
            (read.Packs, read.Rules, read.Sheets, read.Cases)
        );
    }

    /// <summary>How many members the lists of a name have in all files of a kind, by a plain JSON reader.</summary>
    private static int InFiles(string pattern, string list) =>
        Directory
            .EnumerateFiles(ReferenceFiles.InRepository("rules"), pattern, SearchOption.AllDirectories)
            .Sum(file => JsonNode.Parse(File.ReadAllText(file))![list]!.AsArray().Count);
}
