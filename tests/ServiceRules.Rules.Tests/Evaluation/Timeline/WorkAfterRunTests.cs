using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>The steps of the seat and the look at the reels, again after each run and before hands go in again.</summary>
public sealed class WorkAfterRunTests
{
    private const string Run = "09:50 test_energised tech-01\n09:58 test_ended tech-01\n";

    private const string Again = """
        10:00 drive_disengaged tech-01
        10:00 units_lowered tech-01
        10:01 parking_brake_set tech-01
        10:02 key_removed tech-01
        10:03 seen_at_rest tech-01

        """;

    private const string In = "10:20 work_started tech-01\n10:40 work_stopped tech-01\n";

    public static TheoryData<TimelineEventKind> Steps =>
        [
            TimelineEventKind.DriveDisengaged,
            TimelineEventKind.UnitsLowered,
            TimelineEventKind.ParkingBrakeSet,
            TimelineEventKind.KeyRemoved,
            TimelineEventKind.SeenAtRest,
        ];

    [Theory]
    [MemberData(nameof(Steps))]
    public void Evaluate_RunInTheMiddleOfTheJob_AsksTheStepAgain(TimelineEventKind step)
    {
        var whole = new SafetyCase().With(MakeSafe.Seat + MakeSafe.Work + Run + Again + In);
        var once = new SafetyCase().With(MakeSafe.Seat + MakeSafe.Work + Run + In);

        Assert.Equal(Verdict.Met, Judge(whole, step).Verdict);
        Assert.Equal(
            (Verdict.NotMet, FindingReason.StepMissing),
            (Judge(once, step).Verdict, Judge(once, step).Reason)
        );
    }

    [Fact]
    public void Evaluate_KeyLeftInAfterTheRun_NamesRunAndWork()
    {
        var outcome = Judge(
            new SafetyCase().With(MakeSafe.Seat + MakeSafe.Work + Run + In),
            TimelineEventKind.KeyRemoved
        );

        Assert.Equal(
            "The record does not show the key out and kept again after the machine energised for a test at 09:50, and before work started at 10:20.",
            outcome.Statement
        );
        Assert.Equal<IEnumerable<string>>(["/timeline/10", "/timeline/12"], outcome.Evidence);
    }

    [Fact]
    public void Evaluate_SeenAtRestOnlyWithHandsInAgain_IsWrongOrder() =>
        Assert.Equal(
            FindingReason.WrongOrder,
            Judge(
                new SafetyCase().With(
                    MakeSafe.Seat + MakeSafe.Work + Run + In + "10:21 seen_at_rest tech-01"
                ),
                TimelineEventKind.SeenAtRest
            ).Reason
        );

    [Fact]
    public void Evaluate_TwoRuns_AsksAfterEach() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(
                new SafetyCase().With(
                    MakeSafe.Seat
                        + MakeSafe.Work
                        + Run
                        + Again
                        + In
                        + "10:50 test_energised tech-01\n10:55 test_ended tech-01\n11:00 work_started tech-01\n11:10 work_stopped tech-01"
                ),
                TimelineEventKind.ParkingBrakeSet
            ).Verdict
        );

    [Fact]
    public void Evaluate_OpenJobAfterTheRun_SaysWhatComesBeforeHandsGoInAgain()
    {
        var outcome = Judge(
            new SafetyCase { IsSignedOff = false }.With(MakeSafe.Seat + MakeSafe.Work + Run),
            TimelineEventKind.KeyRemoved
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
        Assert.Contains("Do it before hands go in again", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("10:00 machine_started op-01", true)]
    [InlineData("", true)]
    [InlineData("", false)]
    public void Evaluate_NobodyGoesInAfterTheLastRun_AsksNothingMore(string end, bool isSignedOff) =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase { IsSignedOff = isSignedOff }.With(
                    MakeSafe.Seat + MakeSafe.Work + (isSignedOff ? Run : string.Empty) + end
                ),
                TimelineEventKind.KeyRemoved
            ).Verdict
        );

    /// <summary>That the test ended says that the machine was shut down; isolation and proof another duty asks for.</summary>
    [Fact]
    public void Evaluate_ShutdownAndProof_AreNotAskedHereAgain() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + Run + In),
                TimelineEventKind.MachineShutDown
            ).Verdict
        );

    private static CheckOutcome Judge(SafetyCase job, TimelineEventKind step) =>
        job.Judge(
            new Check.RequiredEvent(
                [step],
                RequiredPer.Job,
                RequiredWhen.BeforeWork,
                step switch
                {
                    TimelineEventKind.DriveDisengaged => MachineNeed.ReelDrive,
                    TimelineEventKind.UnitsLowered => MachineNeed.LoweringUnits,
                    TimelineEventKind.ParkingBrakeSet => MachineNeed.ParkingBrake,
                    TimelineEventKind.KeyRemoved => MachineNeed.Key,
                    _ => null,
                }
            )
        );
}
