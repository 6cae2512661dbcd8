using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Runs in the middle of a job, however they are entered.</summary>
public sealed class MachineRunDutiesTests
{
    private const string Before = MakeSafe.Isolation + MakeSafe.Work;

    private const string Opened = """
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:48 lock_removed tech-01 source=hydraulic lock=L-12

        """;

    private const string Run = """
        09:44 alternative_measures_recorded tech-01 measures=LongHandledBrush
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:48 lock_removed tech-01 source=hydraulic lock=L-12
        09:50 test_energised tech-01
        09:52 energised_task_performed tech-01
        09:58 test_ended tech-01

        """;

    private const string Down = "10:02 machine_shut_down tech-01\n";

    private const string Rest = "10:04 seen_at_rest tech-01\n";

    private const string Again = """
        10:06 isolator_operated tech-01 source=engine_start
        10:07 isolator_operated tech-01 source=hydraulic
        10:08 lock_applied tech-01 source=engine_start lock=L-11 position=off
        10:09 lock_applied tech-01 source=hydraulic lock=L-12 position=closed
        10:12 stored_energy_released tech-01 source=hydraulic
        10:14 stored_energy_released tech-01 source=gravity
        10:17 isolation_verified tech-01 source=all

        """;

    private const string Work = """
        10:20 work_started tech-01
        10:40 work_stopped tech-01

        """;

    private static readonly string Started = Run.Replace(
        "test_energised",
        "machine_started",
        StringComparison.Ordinal
    );

    private static readonly SafetyCase Lap = new SafetyCase() with
    {
        Recorded = record => record with { Tasks = [ServiceTask.Lap] },
        Procedure = Stopping("all locked"),
    };

    [Theory]
    [InlineData(Down + Rest, Verdict.Met)]
    [InlineData(Rest, Verdict.Unproven)]
    [InlineData("", Verdict.NotMet)]
    public void ShutDownAfterRun_HandsInAgain_AsksForTheShutdownOrForProof(string steps, Verdict verdict)
    {
        Assert.Equal(
            verdict,
            Lap.With(Before + Run + steps + Again + Work).VerdictOf(EnergyDuty.ShutDownAfterRun)
        );
        Assert.Equal(
            verdict,
            Lap.With(Before + Started + steps + Again + Work).VerdictOf(EnergyDuty.ShutDownAfterRun)
        );
    }

    [Fact]
    public void ShutDownAfterRun_SeenAtRestAndNotProvenDead_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Run + Rest + Work).VerdictOf(EnergyDuty.ShutDownAfterRun)
        );

    [Fact]
    public void ShutDownAfterRun_OpenJob_IsStillToBeDone()
    {
        var open = Lap with { IsSignedOff = false };

        Assert.Equal(
            FindingReason.InProgress,
            open.With(Before + Run).Duty(EnergyDuty.ShutDownAfterRun).Reason
        );
        Assert.Equal(Verdict.Met, open.With(Before + Run + Down).VerdictOf(EnergyDuty.ShutDownAfterRun));
    }

    [Fact]
    public void ShutDownAfterRun_StartedOnlyToGoOut_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, MakeSafe.Complete.VerdictOf(EnergyDuty.ShutDownAfterRun));

    [Fact]
    public void RelockedAfterTest_StartedInTheMiddleOfTheJob_AsksForEverythingAgain()
    {
        Assert.Equal(
            Verdict.Met,
            Lap.With(Before + Started + Again + Work).VerdictOf(EnergyDuty.RelockedAfterTest)
        );
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Started + Work).VerdictOf(EnergyDuty.RelockedAfterTest)
        );
    }

    [Fact]
    public void NoHands_MachineStartedForATask_AreJudgedAsInATest()
    {
        Assert.Equal(
            Verdict.Met,
            Lap.With(Before + Started + Again + Work).VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Started + "09:55 work_started tech-02\n")
                .VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
    }

    /// <summary>What only a hand at the unit can do, by whomever and in whatever run, is hands in.</summary>
    [Theory]
    [InlineData("reel_wedged op-01")]
    [InlineData("reel_wedged tech-01")]
    [InlineData("unit_supported op-01")]
    [InlineData("guards_refitted op-01")]
    [InlineData("stored_energy_released op-01 source=gravity")]
    [InlineData("stored_energy_released op-01 source=spring")]
    [InlineData("stored_energy_released op-01 source=wheel_rotation")]
    [InlineData("stored_energy_released op-01 source=all")]
    [InlineData("blockage_cleared_with_tool op-01")]
    [InlineData("blockage_cleared_by_hand op-01")]
    public void NoHands_StepDoneAtTheUnitDuringARun_IsNotMet(string step)
    {
        foreach (var run in new[] { Run, Started })
        {
            var outcome = Lap.With(Before + run + $"09:55 {step}\n" + Again + Work)
                .Duty(EnergyDuty.NoHandsWhileEnergised);

            Assert.Equal(Verdict.NotMet, outcome.Verdict);
            Assert.Equal(FindingReason.Unprotected, outcome.Reason);
            Assert.Contains("hands at the unit, during the", outcome.Statement, StringComparison.Ordinal);
            Assert.Contains(
                $"/timeline/{(Before + run).Split('\n', StringSplitOptions.RemoveEmptyEntries).Length}",
                outcome.Evidence
            );
        }
    }

    [Theory]
    // A lever is no unit, but somebody stood at the machine.
    [InlineData("09:55 stored_energy_released op-01 source=hydraulic", Verdict.Unproven)]
    [InlineData("09:55 people_clear_checked op-01", Verdict.Met)]
    [InlineData("09:49 reel_wedged op-01", Verdict.Met)]
    [InlineData("09:59 reel_wedged op-01", Verdict.Met)]
    // Entered in the minute of the start: which came first is not told.
    [InlineData("09:50 reel_wedged op-01", Verdict.Unproven)]
    [InlineData("09:50:20 reel_wedged op-01", Verdict.NotMet)]
    public void NoHands_StepBesideARunOrDoneFromAfar_IsNoHandIn(string step, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Lap.With(Before + Run + step + "\n" + Again + Work).VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );

    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("09:51 machine_shut_down tech-01\n", Verdict.NotApplicable)]
    // Nobody entered the end; what follows a stop shows that it was over.
    [InlineData("09:51 key_removed tech-01\n09:52 seen_at_rest tech-01\n", Verdict.NotApplicable)]
    public void NoHands_StepAfterAPlainStart_CountsUntilItStops(string between, Verdict verdict) =>
        Assert.Equal(
            verdict,
            new SafetyCase()
                .With(
                    Before
                        + Opened
                        + "09:50 machine_started tech-01\n"
                        + between
                        + "09:55 reel_wedged tech-01\n"
                )
                .VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );

    /// <summary>Nothing shows since when it ran that was shut down.</summary>
    [Theory]
    [InlineData("07:50 reel_wedged op-01\n07:55 machine_shut_down tech-01\n", Verdict.Unproven)]
    [InlineData("07:55 reel_wedged op-01\n07:50 machine_shut_down tech-01\n", Verdict.NotApplicable)]
    [InlineData(
        "07:48 seen_at_rest op-01\n07:50 reel_wedged op-01\n07:55 machine_shut_down tech-01\n",
        Verdict.NotApplicable
    )]
    [InlineData(
        "07:50 stored_energy_released op-01 source=gravity\n07:55 machine_shut_down tech-01\n",
        Verdict.NotApplicable
    )]
    public void NoHands_StepBeforeTheFirstShutdown_IsNotShownToBeAtRest(string first, Verdict verdict) =>
        Assert.Equal(
            verdict,
            new SafetyCase().With(first + Before).VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );

    /// <summary>A late entry that tells of a hand in the run is believed against the run all the same.</summary>
    [Theory]
    [InlineData("mark=late-entry")]
    [InlineData("mark=transcription")]
    public void NoHands_StepInARunLabelledLate_StaysNotMet(string mark) =>
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Run + $"09:55 reel_wedged op-01 {mark}\n" + Again + Work)
                .VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );

    [Fact]
    public void NoGloves_StartedInTheMiddleOfTheJob_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Started + "09:51 gloves_worn tech-01\n" + Again + Work)
                .VerdictOf(EnergyDuty.NoGlovesNearTurningReel)
        );

    [Fact]
    public void RunLength_StartedInTheMiddleOfTheJob_IsHeldAgainstTheLongestTime() =>
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Before + Started.Replace("09:58", "10:01", StringComparison.Ordinal) + Again + Work)
                .VerdictOf(EnergyDuty.EnergisedRunLength)
        );

    /// <summary>Seven minutes each, ten allowed: what stands between them decides.</summary>
    [Theory]
    [InlineData("", "all locked", Verdict.NotMet)]
    [InlineData("09:58:20 machine_shut_down tech-01\n", "all locked", Verdict.NotMet)]
    [InlineData("09:58:20 machine_shut_down tech-01\n", "machine_shut_down, seen_at_rest", Verdict.NotMet)]
    [InlineData(
        "09:58:20 machine_shut_down tech-01\n09:58:40 seen_at_rest tech-01\n",
        "machine_shut_down, seen_at_rest",
        Verdict.Met
    )]
    public void RunLength_RunAgainAtOnce_IsOneRunWithoutTheStopBetween(
        string between,
        string stop,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            (Lap with { Procedure = Stopping(stop) })
                .With(
                    Before
                        + Run
                        + between
                        + "09:59 test_energised tech-01\n10:05 test_ended tech-01\n"
                        + Again
                        + Work
                )
                .VerdictOf(EnergyDuty.EnergisedRunLength)
        );

    [Fact]
    public void RunLength_EverythingProvenDeadBetween_IsTwoRuns() =>
        Assert.Equal(
            Verdict.Met,
            Lap.With(
                    Before
                        + Run
                        + Again
                        + """
                        10:21 lock_removed tech-01 source=engine_start lock=L-11
                        10:22 lock_removed tech-01 source=hydraulic lock=L-12
                        10:23 test_energised tech-01
                        10:24 energised_task_performed tech-01
                        10:30 test_ended tech-01
                        """
                )
                .VerdictOf(EnergyDuty.EnergisedRunLength)
        );

    [Theory]
    [InlineData(EnergyDuty.NoHandsWhileEnergised, Verdict.NotMet)]
    [InlineData(EnergyDuty.EnergisedByAuthorised, Verdict.Unproven)]
    [InlineData(EnergyDuty.RelockedAfterTest, Verdict.NotMet)]
    [InlineData(EnergyDuty.TestPeopleClear, Verdict.NotMet)]
    public void Judge_OnlyTheEndOfATest_IsARunAllTheSame(EnergyDuty of, Verdict verdict) =>
        Assert.Equal(
            verdict,
            new SafetyCase().With(Before + "09:58 test_ended tech-01\n" + Work).VerdictOf(of)
        );

    [Fact]
    public void NoHands_OnlyTheEndOfATest_OnAnOpenJobIsUnprovenButWithHandsIn()
    {
        var open = new SafetyCase() with { IsSignedOff = false };

        Assert.Equal(
            Verdict.Unproven,
            open.With(Before + "09:58 test_ended tech-01\n").VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
        Assert.Equal(
            Verdict.NotMet,
            open.With(Before + "09:20 test_ended tech-01\n").VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
    }

    [Theory]
    [InlineData("09:58 test_ended tech-01\n09:59 test_ended tech-01\n")]
    [InlineData("09:58 machine_shut_down tech-01\n09:59 seen_at_rest tech-01\n10:00 test_ended tech-01\n")]
    public void NoHands_TheEndEnteredTwiceOrAfterTheShutdown_IsMet(string end) =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(Before + Opened + "09:50 test_energised tech-01\n" + end)
                .VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );

    [Fact]
    public void NoHands_EndOfTheTestNeverEntered_IsUnprovenOnceTheJobIsOver()
    {
        var run = new SafetyCase().With(Before + Opened + "09:50 test_energised tech-01\n");

        Assert.Equal(Verdict.Unproven, run.VerdictOf(EnergyDuty.NoHandsWhileEnergised));
        Assert.Equal(
            Verdict.Met,
            (run with { IsSignedOff = false }).VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
    }

    /// <summary>Until it ended the machine ran: what was locked off before is open, and the proof is gone.</summary>
    [Fact]
    public void Protection_OnlyTheEndOfATest_EndsWhatWasProven() =>
        Assert.Equal(
            Verdict.NotMet,
            new SafetyCase()
                .With(
                    Before
                        + "09:47 lock_removed tech-01 source=engine_start lock=L-11\n09:58 test_ended tech-01\n"
                        + Work
                )
                .Judge(new Check.Protection())
                .Verdict
        );

    private static Domain.Site.Procedure Stopping(string stop) =>
        SafetyCase.RideOn with
        {
            EnergisedTasks =
            [
                new(ServiceTask.Lap, new("lead-01"), [ProtectiveMeasure.LongHandledBrush], stop, null, 10),
            ],
        };
}
