using ServiceRules.Application.RuleCases;
using ServiceRules.Application.Tests.Library;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.RuleCases;

/// <summary>A case that does not come out as it says is told, and apart from one that cannot be built.</summary>
public sealed class TestRulesTests : IDisposable
{
    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Run_CaseThatExpectsOtherwise_TellsTheVerdictFound()
    {
        folder.Replace(
            "base/clearance.cases.json",
            "\"name\": \"no play, free rotation\", \"expect\": \"met\"",
            "\"name\": \"no play, free rotation\", \"expect\": \"not-met\""
        );
        RulesTested tested = TestRules.Run(folder.Load(), "bearings-sound");
        CaseResult wrong = Assert.Single(
            tested.Cases,
            result => result.Outcome is not CaseOutcome.AsExpected
        );
        Assert.Equal((CaseOutcome.OtherVerdict, Verdict.Met), (wrong.Outcome, wrong.Found!.Value));
        Assert.Equal("bearings-sound", wrong.Case.Case.Rule);
        Assert.False(tested.IsGood);
    }

    [Fact]
    public void Run_PatchThatDoesNotFit_CannotBeBuilt()
    {
        folder.Replace(
            "base/clearance.cases.json",
            "/units/0/entries/0/condition",
            "/units/0/entries/99/condition"
        );
        AssertCannotBeBuilt("does not fit");
    }

    [Fact]
    public void Run_PatchedRecordThatIsRefused_CannotBeBuilt()
    {
        folder.Replace("base/clearance.cases.json", "\"value\": \"faulty\"", "\"value\": \"broken\"");
        AssertCannotBeBuilt("/units/0/entries/0/condition");
    }

    [Fact]
    public void Run_FixtureThatIsHeld_IsTold()
    {
        folder.Replace(
            "base/fixtures/daily-check.record.json",
            "\"contact\": \"none\"",
            "\"contact\": \"light\""
        );
        RulesTested tested = TestRules.Run(folder.Load(), "contact-fits-school");
        FixtureResult fixture = Assert.Single(tested.Fixtures, one => !one.IsReleased);
        Assert.Contains(fixture.Told, told => told.Contains("contact-fits-school", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_OneRule_RunsItsCasesOnly()
    {
        RulesTested tested = TestRules.Run(folder.Load(), "key-kept");
        Assert.NotEmpty(tested.Cases);
        Assert.All(tested.Cases, result => Assert.Equal("key-kept", result.Case.Case.Rule));
    }

    private void AssertCannotBeBuilt(string why)
    {
        CaseResult wrong = Assert.Single(
            TestRules.Run(folder.Load(), "bearings-sound").Cases,
            result => result.Outcome is not CaseOutcome.AsExpected
        );
        Assert.Equal(CaseOutcome.CannotBeBuilt, wrong.Outcome);
        Assert.Null(wrong.Found);
        Assert.Contains(why, wrong.Told, StringComparison.Ordinal);
    }
}
