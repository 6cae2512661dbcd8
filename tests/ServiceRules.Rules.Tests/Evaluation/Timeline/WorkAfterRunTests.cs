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

    private const string Gloves = "08:18 gloves_worn tech-01\n";

    private const string Off =
        "09:44 alternative_measures_recorded tech-01 measures=GuardsInPlace,NoGlovesNearTurningReel\n";

    private const string GuardsOnly = "09:44 alternative_measures_recorded tech-01 measures=GuardsInPlace\n";

    /// <summary>Measures that keep gloves off take them off: for the run, and until they are put on again.</summary>
    [Theory]
    [InlineData(Off, "", Verdict.NotMet)]
    [InlineData(Off, "10:10 gloves_worn tech-01\n", Verdict.Met)]
    [InlineData(Off, "10:10 gloves_worn tech-02\n", Verdict.NotMet)]
    [InlineData(Off, "10:25 gloves_worn tech-01\n", Verdict.NotMet)]
    [InlineData(Off, "09:45 gloves_worn tech-01\n", Verdict.NotMet)]
    [InlineData(GuardsOnly, "", Verdict.Met)]
    [InlineData("", "", Verdict.Met)]
    [InlineData(
        "09:59 alternative_measures_recorded tech-01 measures=NoGlovesNearTurningReel\n",
        "",
        Verdict.Met
    )]
    public void Evaluate_GlovesOffForTheRun_AreAskedAgain(string measures, string again, Verdict expected) =>
        Assert.Equal(expected, JudgeGloves(Gloves + MakeSafe.Work + measures + Run + again + In).Verdict);

    /// <summary>Whoever comes in only after the run wears what they put on after it.</summary>
    [Theory]
    [InlineData("08:19 gloves_worn tech-02\n", Verdict.NotMet)]
    [InlineData("08:19 gloves_worn tech-02\n10:10 gloves_worn tech-02\n", Verdict.Met)]
    public void Evaluate_FirstInAfterTheRun_GlovesBeforeItDoNotCount(string gloves, Verdict expected) =>
        Assert.Equal(
            expected,
            JudgeGloves(
                gloves
                    + Gloves
                    + MakeSafe.Work
                    + Off
                    + Run
                    + "10:20 work_started tech-02\n10:40 work_stopped tech-02\n",
                "tech-02"
            ).Verdict
        );

    [Fact]
    public void Evaluate_GlovesNotOnAgain_TellsTheRunAndWhy() =>
        Assert.Equal(
            "The record does not show gloves worn by tech-01 again after the machine energised for a test at 09:50 with no gloves near the turning reel, and before tech-01 started work at 10:20.",
            JudgeGloves(Gloves + MakeSafe.Work + Off + Run + In).Statement
        );

    /// <summary>Recorded once, measures hold for each test and task; for a plain start only where they stand just before.</summary>
    [Theory]
    [InlineData("test_energised", "test_ended", "", Verdict.NotMet)]
    [InlineData("machine_started", "machine_shut_down", "", Verdict.Met)]
    [InlineData(
        "machine_started",
        "machine_shut_down",
        "10:51 energised_task_performed tech-01\n",
        Verdict.NotMet
    )]
    [InlineData(
        "machine_started",
        "machine_shut_down",
        "10:49 alternative_measures_recorded tech-01 measures=NoGlovesNearTurningReel\n",
        Verdict.NotMet
    )]
    public void Evaluate_SecondRun_IsOneWithoutGlovesWhereMeasuresAreAskedOfIt(
        string begins,
        string ends,
        string more,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            JudgeGloves(
                Gloves
                    + MakeSafe.Work
                    + Off
                    + Run
                    + "10:10 gloves_worn tech-01\n"
                    + In
                    + $"10:50 {begins} tech-01\n{more}10:55 {ends} tech-01\n"
                    + "11:00 work_started tech-01\n11:10 work_stopped tech-01\n"
            ).Verdict
        );

    private static CheckOutcome JudgeGloves(string timeline, params string[] more) =>
        (
            new SafetyCase
            {
                People = [SafetyCase.Person("tech-01"), .. more.Select(id => SafetyCase.Person(id))],
            }
        )
            .With(timeline)
            .Judge(
                new Check.RequiredEvent(
                    [TimelineEventKind.GlovesWorn],
                    RequiredPer.Person,
                    RequiredWhen.BeforeWork,
                    null
                )
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
