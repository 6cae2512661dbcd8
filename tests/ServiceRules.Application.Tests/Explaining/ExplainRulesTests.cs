using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Explaining;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Application.Tests.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Tests.Explaining;

public sealed class ExplainRulesTests : IDisposable
{
    private const string Rule = """
        {
          "id": "height-on-target", "title": "Height on target, here", "requirement": "As below, and it stops.",
          "when": { "tasks": ["height-check", "height-change", "full-service", "grind", "seasonal-overhaul"], "orRead": ["height-of-cut"], "sheetStates": "height-of-cut" },
          "scope": "unit",
          "check": { "kind": "limit-on-quantity", "quantity": "height-of-cut", "against": "setting-order", "where": "stations-and-ends" },
          "severity": "stop", "unproven": "hold",
          "basis": { "kind": "site-policy" }, "advice": "Set it."
        }
        """;

    private readonly SpoiltFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static Explained Explain(LoadedRules rules, string fixture, string? rule = null)
    {
        var bytes = System.Text.Encoding.UTF8.GetBytes(RecordFiles.Fixture(fixture).ToJsonString());
        var outcome = new AssessRecord(rules.Book, rules.Site!).Assess(bytes);
        return new ExplainRules(rules).Explain(Assert.IsType<AssessOutcome.Judged>(outcome).Assessed, rule);
    }

    private void Pack(string folder, string layer)
    {
        Directory.CreateDirectory(_folder.At(folder));
        File.WriteAllText(
            _folder.At($"{folder}/pack.json"),
            $$"""{ "format": "rule-pack/1", "id": "{{folder}}", "version": "1.0.0", "title": "More", "layer": "{{layer}}", "precedence": "Local codes first." }"""
        );
        File.WriteAllText(
            _folder.At($"{folder}/more.rules.json"),
            $$"""{ "format": "rules/1", "rules": [{{Rule}}] }"""
        );
    }

    [Fact]
    public void Explain_RuleThatApplies_TellsWhyWhereFromAndByWhatLimit()
    {
        var rule = Assert.Single(Explain(RecordFiles.Rules, "height-check", "height-on-target").Rules);

        Assert.True(rule.IsInForce);
        Assert.Equal(
            ("base", PackLayer.Base, "base/rollers-and-height.rules.json"),
            (rule.Standing.Pack.Id.Text, rule.Standing.Pack.Layer, rule.Standing.File)
        );
        Assert.Equal(3, rule.Subjects.Length);
        var subject = rule.Subjects[0];
        Assert.True(subject.Reach.Applies);
        Assert.Equal([new PartAnswer(AskedPart.Tasks, true)], subject.Reach.OfJob.AsEnumerable());
        Assert.Equal(
            [new PartAnswer(AskedPart.SheetStates, true)],
            subject.Reach.Units[0].Answers.AsEnumerable()
        );
        Assert.Equal(Verdict.Met, subject.Finding?.Verdict);
        var limit = Assert.Single(subject.Limits);
        Assert.Equal(
            (MeasuredQuantity.HeightOfCut, "sheets/reel-125-9-510.sheet.json"),
            (limit.Quantity, limit.File)
        );
        Assert.Equal("S-2026-season", limit.Target?.Order?.Id.Text);
        Assert.Equal("3.8 mm", limit.Target?.Target.Target.ToString());
    }

    [Fact]
    public void Explain_RuleThatDoesNotApply_NamesThePartThatDoesNotHold()
    {
        var rule = Assert.Single(
            Explain(RecordFiles.Rules, "height-check", "shield-gap-within-limits").Rules
        );

        Assert.All(
            rule.Subjects,
            subject =>
            {
                Assert.False(subject.Reach.Applies);
                Assert.Null(subject.Finding);
                Assert.Equal([new PartAnswer(AskedPart.Tasks, false)], subject.Reach.OfJob.AsEnumerable());
            }
        );
    }

    [Fact]
    public void Explain_JobCardAsksForAHeight_NamesTheJobCard()
    {
        var job = RecordFiles.Fixture("height-check");
        job["people"]!.AsArray().Add(JsonNode.Parse("""{ "id": "lead-01", "role": "leads" }"""));
        job["requested"] = JsonNode.Parse(
            """[{ "quantity": "height-of-cut", "value": "3.85 mm", "by": "lead-01", "order": "S-2026-season" }]"""
        );
        var bytes = System.Text.Encoding.UTF8.GetBytes(job.ToJsonString());
        var rules = RecordFiles.Rules;
        var judged = Assert.IsType<AssessOutcome.Judged>(
            new AssessRecord(rules.Book, rules.Site!).Assess(bytes)
        );

        var explained = new ExplainRules(rules).Explain(judged.Assessed, "height-on-target");

        var target = explained.Rules[0].Subjects[0].Limits[0].Target;
        Assert.Equal("3.85 mm", target?.Asked?.Asked.Value.ToString());
        Assert.Equal("S-2026-season", target?.Order?.Id.Text);
    }

    /// <summary>What is told to apply is what was judged, in every fixture and for every rule.</summary>
    [Fact]
    public void Explain_EveryFixture_AppliesWhereThereIsAFinding()
    {
        foreach (var file in Directory.GetFiles(_folder.At("base/fixtures"), "*.record.json"))
        {
            var name = Path.GetFileName(file).Replace(".record.json", "", StringComparison.Ordinal);

            var explained = Explain(RecordFiles.Rules, name);

            var told = explained.Rules.SelectMany(rule =>
                rule.Subjects.Where(subject => subject.Reach.Applies)
                    .Select(subject => $"{rule.Standing.Rule.Id} {subject.Reach.Subject.Key}")
            );
            var judged = explained.Assessed.Assessment.Findings.Select(finding =>
                $"{finding.Rule} {finding.Subject.Key}"
            );
            Assert.Equal(judged.Order(StringComparer.Ordinal), told.Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void Explain_SiteTightens_TellsWhatItMadeOfTheRuleBelow()
    {
        Pack("site-more", "site");

        var rule = Assert.Single(Explain(_folder.Load(), "height-check", "height-on-target").Rules);

        Assert.Equal("site-more", rule.Standing.Pack.Id.Text);
        var below = Assert.Single(rule.Replaces);
        Assert.Equal("base", below.Below.Pack.Id.Text);
        Assert.Contains(new PartChange("severity", "\"hold\"", "\"stop\""), below.Tightened);
        Assert.Contains(new PartChange("unproven", "\"second-person\"", null), below.Tightened);
        Assert.DoesNotContain(
            below.Tightened,
            change => change.Where.StartsWith("when", StringComparison.Ordinal)
        );
    }

    /// <summary>The site names no jurisdiction: the statement below stays in force.</summary>
    [Fact]
    public void Explain_JurisdictionNotNamed_StandsByTheRuleBelow()
    {
        Pack("somewhere", "jurisdiction");

        var rule = Assert.Single(Explain(_folder.Load(), "height-check", "height-on-target").Rules);

        Assert.Equal("base", rule.Standing.Pack.Id.Text);
        Assert.Empty(rule.Replaces);
    }

    [Fact]
    public void Explain_RuleOfAJurisdictionNotNamed_IsNotInForce()
    {
        Pack("somewhere", "jurisdiction");
        _folder.Replace("somewhere/more.rules.json", "\"height-on-target\"", "\"height-by-law\"");

        var rule = Assert.Single(Explain(_folder.Load(), "height-check", "height-by-law").Rules);

        Assert.False(rule.IsInForce);
        Assert.All(rule.Subjects, subject => Assert.Null(subject.Finding));
    }

    [Fact]
    public void Explain_Waiver_IsToldWithWhetherItIsInForce()
    {
        _folder.Replace(
            "site-alder-reach/registers.json",
            "\"people\": [",
            """
            "waivers": [
              { "rule": "height-on-target", "by": "lead-01", "reason": "frost", "from": "2026-04-01", "until": "2026-04-30" },
              { "rule": "height-on-target", "by": "lead-01", "reason": "drought", "from": "2025-07-01", "until": "2025-07-31" }],
            "people": [
            """
        );

        var rule = Assert.Single(Explain(_folder.Load(), "height-check", "height-on-target").Rules);

        Assert.Equal(
            [("frost", true, "/waivers/0"), ("drought", false, "/waivers/1")],
            rule.Waivers.Select(seen => (seen.Waiver.Reason, seen.IsInForce, seen.Pointer))
        );
    }

    [Theory]
    [InlineData("height-on-taget", "height-on-target")]
    [InlineData("parallel", "front-roller-parallel")]
    public void Near_NameThatIsNotThere_NamesWhatWasMeant(string name, string meant) =>
        Assert.Contains(meant, new ExplainRules(RecordFiles.Rules).Near(name));

    [Fact]
    public void Explain_NoSuchRule_ExplainsNothing() =>
        Assert.Empty(Explain(RecordFiles.Rules, "height-check", "no-such-rule").Rules);
}
