using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class UnknownSourcesTests
{
    private static readonly Check Known = new Check.Credibility(CredibilityOf.UnknownSources);

    [Fact]
    public void Evaluate_EverySourceByItsName_IsMet() =>
        Assert.Equal(Verdict.Met, MakeSafe.Complete.Judge(Known).Verdict);

    [Theory]
    [InlineData("engin_start", "did you mean `engine_start`? known are engine_start, hydraulic, gravity")]
    [InlineData("group-box", "did you mean `group_box`? known are engine_start, hydraulic, gravity")]
    [InlineData("mains_supply", "; known are engine_start, hydraulic, gravity")]
    public void Evaluate_ASourceThatTheMachineDoesNotHave_TellsTheNearest(string named, string told)
    {
        var outcome = new SafetyCase()
            .With($"08:06 lock_applied tech-01 source={named} lock=L-11")
            .Judge(Known);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
        Assert.Equal<string>(["/timeline/0"], outcome.Evidence);
    }

    [Theory]
    [InlineData("08:06 lock_applied tech-01 source=group_box lock=L-11")]
    [InlineData("08:06 isolation_verified tech-01 source=all")]
    [InlineData("08:05 source_added tech-01 source=charger\n08:06 plug_removed tech-01 source=charger")]
    public void Evaluate_WhatIsNoSlip_IsMet(string timeline) =>
        Assert.Equal(Verdict.Met, new SafetyCase().With(timeline).Judge(Known).Verdict);

    [Fact]
    public void Evaluate_NobodyTellsTheSourcesOfTheMachine_SaysNothing() =>
        Assert.Equal(
            Verdict.Met,
            (new SafetyCase { Procedure = null })
                .With("08:06 lock_applied tech-01 source=engin lock=L-11")
                .Judge(Known)
                .Verdict
        );
}
