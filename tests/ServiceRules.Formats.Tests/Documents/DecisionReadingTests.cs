using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>How a rule says that a measured value is decided.</summary>
public sealed class DecisionReadingTests
{
    public static TheoryData<string> Written() =>
        [
            "\"guarded-one-sided\"",
            "\"simple\"",
            "\"probability\"",
            """{ "kind": "guarded", "factor": 0.5 }""",
            """{ "kind": "guarded", "factor": 1, "limitItself": "excluded" }""",
            """{ "kind": "guarded-to-risk", "risk": 0.02 }""",
            """{ "kind": "simple", "limitItself": "excluded" }""",
            """{ "kind": "probability", "metFrom": 0.9, "notMetUpTo": 0.1, "intervals": "uniform" }""",
        ];

    [Theory]
    [MemberData(nameof(Written))]
    public void Write_AfterRead_StatesTheSameDecision(string decision)
    {
        Assert.True(RulePackFormat.Rules.Read(Bytes(decision)).TryGet(out var file, out _));
        var written = RulePackFormat.Rules.Write(file);

        Assert.True(
            JsonNode.DeepEquals(JsonNode.Parse(decision), JsonNode.Parse(written)!["rules"]![0]!["decision"]),
            Encoding.UTF8.GetString(written)
        );
    }

    [Fact]
    public void Read_AnObject_GivesTheDecisionRule()
    {
        Assert.Equal(new(new DecisionRule.Guarded(0.5m)), Read("""{ "kind": "guarded", "factor": 0.5 }"""));
        Assert.Equal(RuleDecision.Guarded, Read("""{ "kind": "guarded" }"""));
        Assert.Equal(
            new(new DecisionRule.GuardedToRisk(Probability.Of(0.02m)), LimitItself.Excluded),
            Read("""{ "kind": "guarded-to-risk", "risk": 0.02, "limitItself": "excluded" }""")
        );
        Assert.Equal(RuleDecision.Probability, Read("""{ "kind": "probability" }"""));
        Assert.Equal(
            new(DecisionRule.NinetyFiveToFive with { Intervals = IntervalModel.Uniform }),
            Read("""{ "kind": "probability", "intervals": "uniform" }""")
        );
    }

    [Theory]
    [InlineData("\"strict\"", "value.choice", "")]
    [InlineData("""{ "kind": "strict" }""", "value.choice", "/kind")]
    [InlineData("""{ "factor": 1 }""", "name.missing", "")]
    [InlineData("""{ "kind": "guarded", "factor": 0 }""", "value.range", "/factor")]
    [InlineData("""{ "kind": "guarded", "factor": 3.1 }""", "value.range", "/factor")]
    [InlineData("""{ "kind": "guarded-to-risk" }""", "name.missing", "/kind")]
    [InlineData("""{ "kind": "guarded-to-risk", "risk": 0.51 }""", "value.range", "/risk")]
    [InlineData("""{ "kind": "guarded-to-risk", "risk": 0 }""", "value.range", "/risk")]
    [InlineData("""{ "kind": "simple", "factor": 1 }""", "value.contradiction", "/factor")]
    [InlineData("""{ "kind": "guarded", "risk": 0.02 }""", "value.contradiction", "/risk")]
    [InlineData("""{ "kind": "guarded", "metFrom": 0.9 }""", "value.contradiction", "/metFrom")]
    [InlineData("""{ "kind": "guarded", "notMetUpTo": 0.1 }""", "value.contradiction", "/notMetUpTo")]
    [InlineData("""{ "kind": "simple", "intervals": "uniform" }""", "value.contradiction", "/intervals")]
    [InlineData("""{ "kind": "simple", "limitItself": "maybe" }""", "value.choice", "/limitItself")]
    [InlineData(
        """{ "kind": "probability", "metFrom": 0.1, "notMetUpTo": 0.1 }""",
        "value.contradiction",
        "/metFrom"
    )]
    [InlineData("""{ "kind": "probability", "notMetUpTo": 0.95 }""", "value.contradiction", "")]
    public void Read_OneThingWrong_IsToldWhereItStands(string decision, string code, string below)
    {
        ProblemReport problems = RulePackFormat.Rules.Read(Bytes(decision)).Problems;

        Assert.Contains(
            (code, "/rules/0/decision" + below),
            problems.Told.Select(problem => (problem.Code, problem.Pointer))
        );
        Assert.All(problems.Told, problem => Assert.NotEmpty(problem.Accepted));
    }

    private static RuleDecision Read(string decision)
    {
        Assert.True(
            RulePackFormat.Rules.Read(Bytes(decision)).TryGet(out var file, out ProblemReport problems),
            string.Join('\n', problems.Lines())
        );
        return file.Rules[0].Decision;
    }

    private static byte[] Bytes(string decision) =>
        Encoding.UTF8.GetBytes(
            $$"""
            {
              "format": "rules/1",
              "rules": [
                {
                  "id": "lip",
                  "title": "Lip",
                  "requirement": "The lip is thick enough.",
                  "scope": "unit",
                  "check": { "kind": "limit-on-quantity", "quantity": "bedknife-lip", "against": "sheet", "where": "stations" },
                  "decision": {{decision}},
                  "severity": "hold",
                  "basis": { "kind": "common-practice" },
                  "advice": "Fit another bedknife."
                }
              ]
            }
            """
        );
}
