using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class RunningReelDutiesTests
{
    private const string Run = """
        09:42 area_inspected tech-01
        09:43 people_clear_checked tech-01
        09:44 alternative_measures_recorded tech-01 measures=LongHandledBrush,EyeProtection
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:48 lock_removed tech-01 source=hydraulic lock=L-12
        09:50 test_energised tech-01
        09:52 energised_task_performed tech-01
        09:58 test_ended tech-01

        """;

    private const string Again = """
        10:06 isolator_operated tech-01 source=engine_start
        10:07 isolator_operated tech-01 source=hydraulic
        10:08 lock_applied tech-01 source=engine_start lock=L-11 position=off
        10:09 lock_applied tech-01 source=hydraulic lock=L-12 position=closed
        10:12 stored_energy_released tech-01 source=hydraulic
        10:14 stored_energy_released tech-01 source=gravity
        10:17 isolation_verified tech-01 source=all
        10:20 work_started tech-01
        10:40 work_stopped tech-01

        """;

    private const string Whole = MakeSafe.Isolation + MakeSafe.Work + Run + Again;

    private static readonly SafetyCase Lap = new SafetyCase() with
    {
        Recorded = record => record with { Tasks = [ServiceTask.Lap] },
        Procedure = With(
            new(ServiceTask.Lap, new("lead-01"), [ProtectiveMeasure.LongHandledBrush], "all locked", null, 10)
        ),
    };

    public static TheoryData<EnergyDuty> OfRuns =>
        [
            EnergyDuty.TestAreaClear,
            EnergyDuty.TestPeopleClear,
            EnergyDuty.TestDeviceOwner,
            EnergyDuty.NoHandsWhileEnergised,
            EnergyDuty.RelockedAfterTest,
            EnergyDuty.MakeSafeOrder,
            EnergyDuty.EnergisedTaskApproved,
            EnergyDuty.EnergisedMeasuresFirst,
            EnergyDuty.EnergisedRunLength,
            EnergyDuty.NoGlovesNearTurningReel,
        ];

    [Theory]
    [MemberData(nameof(OfRuns))]
    public void Run_EverythingInItsTurn_IsMet(EnergyDuty of) =>
        Assert.Equal(Verdict.Met, Lap.With(Whole).VerdictOf(of));

    [Theory]
    [InlineData("09:42 area", "09:49 area", EnergyDuty.TestAreaClear)]
    [InlineData("09:43 people", "09:51 people", EnergyDuty.TestPeopleClear)]
    [InlineData("09:47 lock_removed tech-01", "09:47 lock_removed lead-01", EnergyDuty.TestDeviceOwner)]
    [InlineData(
        "09:52 energised_task_performed tech-01",
        "09:52 work_started tech-02",
        EnergyDuty.NoHandsWhileEnergised
    )]
    [InlineData("10:06 isolator_operated", "10:21 isolator_operated", EnergyDuty.RelockedAfterTest)]
    [InlineData("10:09 lock_applied", "09:55 lock_applied", EnergyDuty.RelockedAfterTest)]
    [InlineData("10:14 stored_energy_released", "10:21 stored_energy_released", EnergyDuty.RelockedAfterTest)]
    [InlineData("10:17 isolation_verified", "10:21 isolation_verified", EnergyDuty.RelockedAfterTest)]
    [InlineData("10:17 isolation_verified", "10:13 isolation_verified", EnergyDuty.MakeSafeOrder)]
    [InlineData("09:44 alternative", "09:51 alternative", EnergyDuty.EnergisedMeasuresFirst)]
    [InlineData(
        "measures=LongHandledBrush,EyeProtection",
        "measures=EyeProtection",
        EnergyDuty.EnergisedMeasuresFirst
    )]
    [InlineData("09:58 test_ended", "10:01 test_ended", EnergyDuty.EnergisedRunLength)]
    [InlineData(
        "09:52 energised",
        "09:51 gloves_worn tech-01\n09:52 energised",
        EnergyDuty.NoGlovesNearTurningReel
    )]
    public void Run_OneStepOutOfItsTurn_IsNotMet(string was, string now, EnergyDuty of)
    {
        Assert.Contains(was, Whole, StringComparison.Ordinal);

        Assert.Equal(
            Verdict.NotMet,
            Lap.With(Whole.Replace(was, now, StringComparison.Ordinal)).VerdictOf(of)
        );
    }

    /// <summary>Run to hear the contact: no task, and people are kept clear all the same.</summary>
    [Theory]
    [InlineData("09:44 alternative_measures_recorded tech-01 measures=GuardsInPlace", Verdict.Met)]
    [InlineData("09:44 alternative_measures_recorded tech-01 measures=EyeProtection", Verdict.NotMet)]
    [InlineData("09:51 alternative_measures_recorded tech-01 measures=GuardsInPlace", Verdict.NotMet)]
    [InlineData("", Verdict.NotMet)]
    public void EnergisedMeasuresFirst_RunForATest_AsksForMeasuresToo(string measures, Verdict verdict) =>
        Assert.Equal(
            verdict,
            new SafetyCase()
                .With(
                    MakeSafe.Isolation
                        + MakeSafe.Work
                        + measures
                        + "\n09:50 test_energised tech-01\n09:58 test_ended tech-01\n"
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    /// <summary>Forty-five runs with no end and hands in twice after them: two faults a run.</summary>
    [Fact]
    public void NoHandsWhileEnergised_MoreFaultsThanAnybodyReads_CountsTheRest()
    {
        var runs = string.Concat(
            Enumerable.Range(0, 45).Select(at => $"10:{at:00} test_energised tech-01\n")
        );
        var outcome = Lap.With(
                MakeSafe.Isolation
                    + runs
                    + "11:00 work_started tech-01\n11:05 work_stopped tech-01\n"
                    + "11:10 work_started tech-01\n11:15 work_stopped tech-01\n"
            )
            .Duty(EnergyDuty.NoHandsWhileEnergised);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(41, outcome.Notices.Length);
        Assert.EndsWith(
            "more of the kind, among the entries named.",
            outcome.Notices[^1],
            StringComparison.Ordinal
        );
    }

    [Theory]
    // Hands in across the run: told in full, without the end (and with a look between), without the start, ended only after it.
    [InlineData("09:49 work_started tech-02", "09:52 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("09:49 work_started tech-02", "", Verdict.NotMet)]
    [InlineData("09:41 work_started tech-02", "", Verdict.Unproven)]
    [InlineData("", "09:52 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("", "10:25 work_stopped tech-02", Verdict.Unproven)]
    [InlineData("", "09:41 work_stopped tech-02", Verdict.Met)]
    // Out in the minute in which it was run: entered after it, and the record cannot tell.
    [InlineData("09:41 work_started tech-02", "09:50 work_stopped tech-02", Verdict.Unproven)]
    public void NoHandsWhileEnergised_StartOrEndNotEntered_IsNeverMet(
        string start,
        string stop,
        Verdict verdict
    ) =>
        Assert.Equal(verdict, Lap.With(InOrderWith(start, stop)).VerdictOf(EnergyDuty.NoHandsWhileEnergised));

    [Theory]
    [InlineData("09:41 work_started tech-02", "09:49 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("09:41 work_started tech-02", "09:52 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("09:41 work_started tech-02", "", Verdict.Unproven)]
    [InlineData("", "09:46 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("", "09:52 work_stopped tech-02", Verdict.Unproven)]
    [InlineData("08:21 work_started tech-02", "09:41 work_stopped tech-02", Verdict.Met)]
    public void TestClear_HandsInAfterTheLook_IsNotMetOrUnproven(string start, string stop, Verdict verdict)
    {
        var job = Lap.With(InOrderWith(start, stop));

        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.TestAreaClear));
        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.TestPeopleClear));
    }

    private static string InOrderWith(params string[] lines) => Whole + string.Join('\n', lines);

    [Fact]
    public void RelockedAfterTest_LockThatStayedOnAllThrough_NeedNotBeHungAgain() =>
        Assert.Equal(
            Verdict.Met,
            Lap.With(
                    Without(
                        "09:48 lock_removed tech-01 source=hydraulic lock=L-12\n",
                        "10:07 isolator_operated tech-01 source=hydraulic\n",
                        "10:09 lock_applied tech-01 source=hydraulic lock=L-12 position=closed\n"
                    )
                )
                .VerdictOf(EnergyDuty.RelockedAfterTest)
        );

    [Fact]
    public void RelockedAfterTest_JobThatGoesOn_SaysWhatIsMissingBeforeHandsGoInAgain()
    {
        var outcome = (Lap.With(MakeSafe.Isolation + MakeSafe.Work + Run) with { IsSignedOff = false }).Duty(
            EnergyDuty.RelockedAfterTest
        );

        Assert.Equal(FindingReason.InProgress, outcome.Reason);
        Assert.Contains(
            "the isolator turned off again for engine start",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void RelockedAfterTest_HandedBackAndHandsInAgain_IsAskedAllTheSame() =>
        Assert.Equal(
            Verdict.NotMet,
            Lap.With(
                    MakeSafe.Isolation
                        + MakeSafe.Work
                        + Run
                        + "10:00 handed_back tech-01\n10:20 work_started tech-01\n10:30 work_stopped tech-01"
                )
                .VerdictOf(EnergyDuty.RelockedAfterTest)
        );

    [Fact]
    public void TestClear_RunBeforeAnyWorkOrLock_HasNothingToClear() =>
        Assert.Equal(
            Verdict.NotApplicable,
            Lap.With("07:00 test_energised tech-01\n07:05 test_ended tech-01\n" + MakeSafe.Isolation)
                .VerdictOf(EnergyDuty.TestAreaClear)
        );

    /// <summary>Lapping is done on a turning reel: a record that leaves the run out shows nothing of who stood where.</summary>
    [Theory]
    [InlineData("task", true, Verdict.NotMet)]
    [InlineData("bench log", true, Verdict.NotMet)]
    [InlineData("entry", true, Verdict.NotMet)]
    [InlineData("entry", false, Verdict.Unproven)]
    [InlineData("task", false, Verdict.NotApplicable)]
    [InlineData("nothing", true, Verdict.NotApplicable)]
    public void NoHandsWhileEnergised_LappedAndNoRunShown_IsAskedFor(
        string by,
        bool isSignedOff,
        Verdict verdict
    )
    {
        var still = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work;
        var job = new SafetyCase() with
        {
            IsSignedOff = isSignedOff,
            Recorded = record =>
                record with
                {
                    Tasks = [by == "task" ? ServiceTask.Lap : ServiceTask.FullService],
                },
            Units = by == "bench log" ? [LappedUnit] : [],
        };

        Assert.Equal(
            verdict,
            job.With(still + (by == "entry" ? "09:30 energised_task_performed tech-01" : string.Empty))
                .VerdictOf(EnergyDuty.NoHandsWhileEnergised)
        );
    }

    /// <summary>Measures written down before nothing are no measures before the run.</summary>
    [Fact]
    public void EnergisedMeasures_LappedAndNoRunShown_AreNotShownToComeFirst()
    {
        var told = Whole
            .Split('\n', StringSplitOptions.TrimEntries)
            .Where(line =>
                !line.Contains("test_e", StringComparison.Ordinal)
                && !line.Contains("energised_task", StringComparison.Ordinal)
            );

        var outcome = Lap.With(string.Join('\n', told)).Duty(EnergyDuty.EnergisedMeasuresFirst);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("does not show the reel run", outcome.Statement, StringComparison.Ordinal);
    }

    private static UnitWork LappedUnit { get; } =
        new()
        {
            Id = new("U-1"),
            Sheet = new("sheet"),
            Entries = [new Grinding { Kind = GrindingKind.Lapping }],
        };

    [Fact]
    public void EnergisedTaskApproved_ListedByNobody_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            (Lap with { Procedure = SafetyCase.RideOn })
                .With(Whole)
                .VerdictOf(EnergyDuty.EnergisedTaskApproved)
        );

    [Fact]
    public void EnergisedTaskApproved_EntryThatDoesNotSayWhich_IsUnproven() =>
        Assert.Equal(
            Verdict.Unproven,
            (Lap with { Recorded = record => record }).With(Whole).VerdictOf(EnergyDuty.EnergisedTaskApproved)
        );

    [Theory]
    [InlineData("09:30", null, "all locked", Verdict.Met)]
    [InlineData("09:55", null, "all locked", Verdict.NotMet)]
    [InlineData("09:55", "hand wheel", "all locked", Verdict.Met)]
    [InlineData("10:03", null, "all locked", Verdict.NotMet)]
    [InlineData("10:03", null, "test_ended", Verdict.Met)]
    [InlineData("10:03", null, "test ended, seen at rest", Verdict.NotMet)]
    [InlineData("10:30", null, "all locked", Verdict.Met)]
    [InlineData(null, null, "all locked", Verdict.Unproven)]
    public void Adjuster_TurnedAtATime_ByTheStopAndControlOfTheProcedure(
        string? at,
        string? control,
        string stop,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (
                Lap with
                {
                    Procedure = With(new(ServiceTask.Lap, new("lead-01"), [], stop, control, null)),
                    Units = [Turned([at])],
                }
            )
                .With(Whole)
                .VerdictOf(EnergyDuty.AdjusterUntouchedWhileRunning)
        );

    /// <summary>The control and the stop of a task are those of the clearance: any other adjuster is at the reel.</summary>
    [Theory]
    [InlineData(AdjusterKind.Height, "09:55", Verdict.NotMet)]
    [InlineData(AdjusterKind.Bearings, "09:55", Verdict.NotMet)]
    [InlineData(AdjusterKind.BedknifePosition, "10:03", Verdict.NotMet)]
    [InlineData(AdjusterKind.Height, "10:30", Verdict.Met)]
    [InlineData(AdjusterKind.Clearance, "09:55", Verdict.Met)]
    [InlineData(AdjusterKind.Clearance, "10:03", Verdict.Met)]
    public void Adjuster_OtherThanOfTheClearance_IsExcusedByNoControl(
        AdjusterKind adjuster,
        string at,
        Verdict expected
    )
    {
        var turned = Turned(at);
        var outcome = (
            Lap with
            {
                Procedure = With(
                    new(ServiceTask.Lap, new("lead-01"), [], "test_ended", "hand wheel at the frame", null)
                ),
                Units =
                [
                    turned with
                    {
                        Entries =
                        [
                            .. turned
                                .Entries.OfType<Adjustment>()
                                .Select(one => one with { Adjuster = adjuster }),
                        ],
                    },
                ],
            }
        )
            .With(Whole)
            .Duty(EnergyDuty.AdjusterUntouchedWhileRunning);

        Assert.Equal(expected, outcome.Verdict);
    }

    /// <summary>Of a click in the very minute of a start nothing tells which came first; by the control from outside it may come after.</summary>
    [Theory]
    [InlineData("09:50", null, Verdict.Unproven)]
    [InlineData("09:50", "hand wheel at the frame", Verdict.Met)]
    [InlineData("09:40", null, Verdict.Met)]
    public void Adjuster_TurnedInTheMinuteOfAStart_IsUntold(string at, string? control, Verdict expected) =>
        Assert.Equal(
            expected,
            (
                Lap with
                {
                    Procedure = With(new(ServiceTask.Lap, new("lead-01"), [], "test_ended", control, null)),
                    Units = [Turned(at)],
                }
            )
                .With(Whole)
                .VerdictOf(EnergyDuty.AdjusterUntouchedWhileRunning)
        );

    /// <summary>Twenty clicks in one run are one thing to tell, and twenty entries to look at.</summary>
    [Fact]
    public void Adjuster_TurnedManyTimesInOneRun_IsToldInOneSentenceWithEveryEntry()
    {
        var outcome = (Lap with { Units = [Turned([.. Enumerable.Range(51, 7).Select(m => $"09:{m}")])] })
            .With(Whole)
            .Duty(EnergyDuty.AdjusterUntouchedWhileRunning);

        Assert.Equal(
            "The record shows adjusters of U-1 turned 7 times at 09:51, 09:52, 09:53, 09:54, 09:55 and so on until 09:57, while the reel was running (the test run at 09:50).",
            outcome.Statement
        );
        Assert.Empty(outcome.Notices);
        Assert.Equal<IEnumerable<string>>(
            Enumerable.Range(0, 7).Select(entry => $"/units/0/entries/{entry}"),
            outcome.Evidence
        );
    }

    [Fact]
    public void Adjuster_TurnedInTheRunAndAfterIt_IsToldApart()
    {
        var outcome = (Lap with { Units = [Turned("09:55", "09:56", "10:03")] })
            .With(Whole)
            .Duty(EnergyDuty.AdjusterUntouchedWhileRunning);

        Assert.Contains("turned 2 times at 09:55 and 09:56", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("turned at 10:03, after", Assert.Single(outcome.Notices), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(EnergyDuty.BlockageStopped, "08:04 seen_at_rest")]
    [InlineData(EnergyDuty.BlockagePressureReleased, "08:12 stored_energy_released")]
    [InlineData(EnergyDuty.BlockageTool, "08:30 blockage_cleared_with_tool")]
    [InlineData(EnergyDuty.BlockageCheckedAfter, "09:43 area_inspected")]
    public void Blockage_EverythingInItsTurnAndOneStepLeftOut(EnergyDuty of, string step)
    {
        var timeline =
            MakeSafe.Seat
            + MakeSafe.Isolation
            + MakeSafe.Work
            + "08:30 blockage_cleared_with_tool tech-01\n"
            + MakeSafe.After;
        var cleared = new SafetyCase() with
        {
            Recorded = record => record with { Tasks = [ServiceTask.ClearBlockage] },
        };
        var line = timeline.Split('\n').First(line => line.StartsWith(step, StringComparison.Ordinal));

        Assert.Equal(Verdict.Met, cleared.With(timeline).VerdictOf(of));
        Assert.NotEqual(
            Verdict.Met,
            cleared.With(timeline.Replace(line + "\n", string.Empty, StringComparison.Ordinal)).VerdictOf(of)
        );
    }

    private static Procedure With(EnergisedTask task) => SafetyCase.RideOn with { EnergisedTasks = [task] };

    private static UnitWork Turned(params string?[] times) =>
        new()
        {
            Id = new("U-1"),
            Sheet = new("sheet"),
            Entries =
            [
                .. times.Select(at => new Adjustment
                {
                    Adjuster = AdjusterKind.Clearance,
                    Side = Side.Left,
                    Amount = new AdjustmentAmount.NotStated(),
                    At = at is null ? null : RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow(),
                }),
            ],
        };

    private static string Without(params ReadOnlySpan<string> lines)
    {
        var timeline = Whole;
        foreach (var line in lines)
        {
            Assert.Contains(line, timeline, StringComparison.Ordinal);
            timeline = timeline.Replace(line, string.Empty, StringComparison.Ordinal);
        }

        return timeline;
    }
}
