using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Least times by hand: isolator, lock, release 5 s each; proof of everything 10 s; seat 1 s; round the machine 15 s.</summary>
public sealed class StepBurstsTests
{
    private static readonly Check Bursts = new Check.Credibility(CredibilityOf.Bursts);

    [Theory]
    // 5 + 5 + 10 = 20 s for what follows the isolator.
    [InlineData("08:08:00", "08:08:05", "08:08:10", "08:08:20", Verdict.Met)]
    [InlineData("08:08:00", "08:08:05", "08:08:10", "08:08:19", Verdict.Unproven)]
    [InlineData("08:08:00", "08:08:05", "08:08:10", "08:08:15", Verdict.Unproven)]
    // The sum decides, of the shorter stretch as well.
    [InlineData("08:08:00", "08:08:09", "08:08:11", "08:08:20", Verdict.Unproven)]
    [InlineData("08:08:00", "08:08:03", "08:08:13", "08:08:20", Verdict.Met)]
    [InlineData("08:08:00", "08:08:04", "08:08:08", "08:08:12", Verdict.Unproven)]
    // Two entered together are none, however fast; three are.
    [InlineData("08:08:01", "08:08:01", "08:08:40", "08:09:30", Verdict.Met)]
    [InlineData("08:08:01", "08:08:01", "08:08:01", "08:09:30", Verdict.Unproven)]
    // Where seconds were not noted, a minute may have passed.
    [InlineData("08:08:00", "08:08:00", "08:08:00", "08:08:00", Verdict.Met)]
    public void Evaluate_IsolatedLockedReleasedProven_BySumOfLeastTimes(
        string off,
        string on,
        string released,
        string proven,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Of(
                $"""
                {off} isolator_operated tech-01 source=engine_start
                {on} lock_applied tech-01 source=engine_start lock=L-11
                {released} stored_energy_released tech-01 source=hydraulic
                {proven} isolation_verified tech-01 source=all
                """
            )
        );

    [Theory]
    [InlineData(1, Verdict.Met)]
    [InlineData(0, Verdict.Unproven)]
    public void Evaluate_FromTheSeat_ASecondAStepIsHonest(int step, Verdict expected) =>
        Assert.Equal(
            expected,
            Of(
                $"""
                08:02:05 drive_disengaged tech-01
                08:02:{5 + step:00} units_lowered tech-01
                08:02:{5 + (2 * step):00} parking_brake_set tech-01
                08:02:{5 + (3 * step):00} machine_shut_down tech-01
                08:02:{5 + (4 * step):00} key_removed tech-01
                """
            )
        );

    [Fact]
    public void Evaluate_TwoPeopleAtOnce_AreNoBurst() =>
        Assert.Equal(
            Verdict.Met,
            Of(
                """
                08:08:01 isolator_operated tech-01 source=engine_start
                08:08:02 lock_applied tech-02 source=engine_start lock=L-21
                08:08:06 lock_applied tech-01 source=engine_start lock=L-11
                08:08:07 stored_energy_released tech-02 source=hydraulic
                """
            )
        );

    [Fact]
    public void Evaluate_TheSameStepTappedAgain_CountsOnce() =>
        Assert.Equal(
            Verdict.Met,
            Of(
                """
                08:08:01 isolator_operated tech-01 source=engine_start
                08:08:02 isolator_operated tech-01 source=engine_start
                08:08:07 lock_applied tech-01 source=engine_start lock=L-11
                08:08:08 lock_applied tech-01 source=engine_start lock=L-11
                08:08:12 stored_energy_released tech-01 source=hydraulic
                """
            )
        );

    [Fact]
    public void Evaluate_Burst_TellsWhatItTakesAndLeavesOutWhatWasDoneAtLeisure()
    {
        var outcome = new SafetyCase()
            .With(
                """
                08:07:30 isolator_operated tech-01 source=engine_start
                08:08:01 lock_applied tech-01 source=engine_start lock=L-11
                08:08:03 stored_energy_released tech-01 source=hydraulic
                08:08:05 stored_energy_released tech-01 source=gravity
                08:09:30 isolation_verified tech-01 source=all
                """
            )
            .Judge(Bursts);

        Assert.Equal(
            "3 steps by tech-01 are recorded within 4 seconds from 2026-04-13T08:08:01+01:00, which take 10 seconds at the least. The same holds for 2 more entries.",
            outcome.Statement
        );
        Assert.Equal<string>(["/timeline/1", "/timeline/2", "/timeline/3"], outcome.Evidence);
    }

    private static Verdict Of(string timeline) => new SafetyCase().With(timeline).Judge(Bursts).Verdict;
}
