using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Application.Tests.Library;

namespace ServiceRules.Application.Tests.RuleCases.Coverage;

/// <summary>What no case exercises is told, each thing with its place.</summary>
public sealed class CoverRulesTests : IDisposable
{
    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Of_BaseRule_IsCovered() =>
        Assert.All(
            Of("clearance-within-limits").Parts,
            part => Assert.True(part.Cases > 0, $"{part.Part} {part.Side}")
        );

    [Fact]
    public void Of_NoCaseInWhichTheSchoolAloneKeepsItOut_TellsThatWay()
    {
        // The one case by which the school keeps the rule out now says nothing about it.
        folder.Replace(
            "base/clearance.cases.json",
            "\"path\": \"/settingOrders/0/schools/0/school\", \"value\": \"light-contact\"",
            "\"path\": \"/settingOrders/0/schools/1/school\", \"value\": \"light-contact\""
        );
        folder.Replace(
            "base/clearance.cases.json",
            "\"name\": \"light contact is the school in force\",\n      \"expect\": \"not-applicable\"",
            "\"name\": \"light contact is the school in force\",\n      \"expect\": \"met\""
        );
        CoveragePart missing = Assert.Single(Of("clearance-within-limits").Missing);
        Assert.Equal(
            (CoverageKind.Condition, "school", "alone keeps the rule out"),
            (missing.Kind, missing.Part, missing.Side)
        );
        Assert.Equal("base/clearance.rules.json", missing.Place.File);
        Assert.EndsWith("/when/school", missing.Place.Pointer, StringComparison.Ordinal);
        Assert.Contains(
            "\"school\": \"air-gap\"",
            File.ReadAllLines(folder.At(missing.Place.File))[missing.Place.Line - 1],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Of_TwoPartsKeepARuleOut_NeitherIsShownAlone()
    {
        folder.Replace(
            "base/clearance.cases.json",
            "\"path\": \"/settingOrders/0/schools/0/school\", \"value\": \"light-contact\" }]",
            "\"path\": \"/settingOrders/0/schools/0/school\", \"value\": \"light-contact\" }],\n"
                + "      \"patch\": [{ \"op\": \"replace\", \"path\": \"/units/0/entries\", \"value\": [] }, "
                + "{ \"op\": \"replace\", \"path\": \"/tasks\", \"value\": [\"daily-check\"] }]"
        );
        Assert.Equal("school", Assert.Single(Of("clearance-within-limits").Missing).Part);
    }

    [Fact]
    public void Of_CaseThatComesOutOtherwise_CoversNothing()
    {
        folder.Replace(
            "base/clearance.cases.json",
            "\"name\": \"no play, free rotation\", \"expect\": \"met\"",
            "\"name\": \"no play, free rotation\", \"expect\": \"unproven\""
        );
        CoveragePart missing = Assert.Single(
            Of("bearings-sound").Missing,
            part => part.Kind is CoverageKind.Verdict
        );
        Assert.Equal("met", missing.Part);
    }

    [Fact]
    public void Of_LimitThatNoRuleJudges_IsToldApartAndAsksForNoCase()
    {
        folder.Replace(
            "sheets/reel-125-9-510.sheet.json",
            "\"quantity\": \"edge\", ",
            "\"quantity\": \"edge\", \"upper\": \"0.5 mm\", "
        );
        LoadedRules rules = folder.Load();
        RulesTested none = new([], []);
        RuleCoverage coverage = CoverRules.Of(rules, none);
        Assert.Contains(coverage.Idle, part => part.Part.StartsWith("edge upper", StringComparison.Ordinal));
        Assert.DoesNotContain(
            coverage.Parts,
            part => part.Part.StartsWith("edge upper", StringComparison.Ordinal)
        );
        Assert.All(coverage.Parts, part => Assert.Equal(0, part.Cases));
        Assert.False(coverage.IsFull);
    }

    private RuleCoverage Of(string rule)
    {
        LoadedRules rules = folder.Load();
        return CoverRules.Of(rules, TestRules.Run(rules, rule), rule);
    }
}
