using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Gloves put on for nothing but a reel that is about to turn, and pressure let off while it does.</summary>
public sealed class GlovesDutyTests
{
    private const string Run = """
        09:46 lock_removed tech-01 source=engine_start lock=L-11
        09:47 lock_removed tech-01 source=hydraulic lock=L-12
        09:48 isolator_operated tech-01 source=engine_start position=on
        09:50 test_energised tech-01
        09:58 test_ended tech-01

        """;

    [Theory]
    [InlineData("08:18 gloves_worn tech-01\n", Verdict.Met)]
    [InlineData("09:10 gloves_worn tech-01\n", Verdict.Met)]
    [InlineData("09:41 gloves_worn tech-01\n", Verdict.Unproven)]
    [InlineData("09:41 gloves_worn tech-01\n09:43 guards_refitted tech-01\n", Verdict.Met)]
    [InlineData("09:41 gloves_worn tech-01\n09:43 guards_refitted tech-02\n", Verdict.Unproven)]
    [InlineData("09:41 gloves_worn tech-02\n", Verdict.Unproven)]
    [InlineData("09:59 gloves_worn tech-01\n", Verdict.Met)]
    public void Judge_GlovesBeforeARun_AreForWhatIsDoneByHandBeforeIt(string gloves, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                MakeSafe.Isolation + MakeSafe.Work + gloves + Run,
                EnergyDuty.NoGlovesNearTurningReel
            ).Verdict
        );

    [Fact]
    public void Judge_GlovesLeftOn_TellsBothTimes() =>
        Assert.Equal(
            "The record shows gloves worn at 09:41 by tech-01, with nothing done by hand between that and the test run at 09:50, and does not show them off by then.",
            Judge(
                MakeSafe.Isolation + MakeSafe.Work + "09:41 gloves_worn tech-01\n" + Run,
                EnergyDuty.NoGlovesNearTurningReel
            ).Statement
        );

    /// <summary>Started to be handed back: what is worn then is nobody's concern.</summary>
    [Fact]
    public void Judge_GlovesBeforeItIsStartedToBeHandedBack_DoesNotApply() =>
        Assert.Equal(
            Verdict.NotApplicable,
            Judge(
                MakeSafe.Isolation + MakeSafe.Work + "09:41 gloves_worn tech-01\n" + MakeSafe.After,
                EnergyDuty.NoGlovesNearTurningReel
            ).Verdict
        );

    [Theory]
    [InlineData("hydraulic", "09:53", Verdict.Unproven)]
    [InlineData("hydraulic", "09:59", Verdict.Met)]
    [InlineData("gravity", "09:53", Verdict.NotMet)]
    public void NoHandsWhileEnergised_StoredEnergyReleasedDuringARun(
        string source,
        string at,
        Verdict expected
    )
    {
        var outcome = Judge(
            MakeSafe.Isolation
                + MakeSafe.Work
                + Run
                + $"{at} stored_energy_released tech-02 source={source}\n",
            EnergyDuty.NoHandsWhileEnergised
        );

        Assert.Equal(expected, outcome.Verdict);
        if (expected == Verdict.Unproven)
        {
            Assert.Contains("where tech-02 stood", outcome.Statement, StringComparison.Ordinal);
            Assert.Equal(2, outcome.Evidence.Length);
        }
    }

    private static CheckOutcome Judge(string timeline, EnergyDuty duty) =>
        new SafetyCase
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Affected)],
        }
            .With(timeline)
            .Duty(duty);
}
