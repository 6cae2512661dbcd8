using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class ProtectionCheckTests
{
    private static readonly Check Protection = new Check.Protection();

    private static readonly SafetyCase Bench = new()
    {
        Procedure = SafetyCase.RideOn with
        {
            Place = WorkPlace.OnBench,
            Controls = new(false, false, false, false),
            Sources =
            [
                SafetyCase.Source("gravity", "raised unit", stored: true),
                SafetyCase.Source("reel_rotation", "turning reel", stored: true),
            ],
        },
    };

    [Fact]
    public void Evaluate_CompleteTimeline_IsMet()
    {
        var outcome = MakeSafe.Complete.Judge(Protection);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains("tech-01", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("isolator_operated", "engine start")]
    [InlineData("lock_applied", "tech-01's own lock on engine start and hydraulic pressure")]
    [InlineData(
        "stored_energy_released",
        "the stored energy of hydraulic pressure released after it was isolated"
    )]
    [InlineData("isolation_verified", "engine start, hydraulic pressure and raised unit verified dead")]
    public void Evaluate_StepLeftOut_IsUnprotectedAndSaysWhatIsLacking(string kind, string lacking)
    {
        var outcome = MakeSafe.Complete.Without(TimelineLine.Kind(kind)).Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.Unprotected), (outcome.Verdict, outcome.Reason));
        Assert.StartsWith(
            "The record shows tech-01 starting work at 08:20. By then it does not show ",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(lacking, outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_WorkEndedNotEntered_IsNotMetOnAClosedJob()
    {
        var outcome = MakeSafe.Complete.Without(TimelineEventKind.WorkStopped).Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Contains("when tech-01 stopped work", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("09:54 work_stopped tech-02", "while the machine ran")]
    [InlineData("09:49 work_stopped tech-02", "at work until 09:49")]
    public void Evaluate_EndOfWorkWithoutAStartOutsideProtection_IsNotMet(string stop, string told)
    {
        var outcome = new SafetyCase()
            .With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After + "\n" + stop)
            .Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.Unprotected), (outcome.Verdict, outcome.Reason));
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_EndOfWorkWithoutAStart_IsNotMetOnAClosedJob()
    {
        var stray = new SafetyCase().With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + "08:18 work_stopped tech-01\n"
                + MakeSafe.Work
                + MakeSafe.After
        );

        var outcome = stray.Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Contains("does not show when it started", outcome.Statement, StringComparison.Ordinal);
    }

    // Something stood between: it may have been the second spell that ended.
    [Fact]
    public void Evaluate_SecondEndAfterTheLockCameOff_IsNotMet()
    {
        var again = new SafetyCase().With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + MakeSafe.Work
                + MakeSafe.After
                + "\n09:49 work_stopped tech-01"
        );

        Assert.Equal(Verdict.NotMet, again.Judge(Protection).Verdict);
    }

    /// <summary>To the minute nobody can tell which came first; to the second the entries stand as they were made.</summary>
    [Theory]
    [InlineData(
        "08:20 isolation_verified tech-01 source=all",
        "08:17 isolation_verified tech-01 source=all",
        Verdict.Unproven
    )]
    [InlineData(
        "2026-04-13T08:20:30+01:00 isolation_verified tech-01 source=all",
        "08:17 isolation_verified tech-01 source=all",
        Verdict.NotMet
    )]
    [InlineData(
        "09:40 lock_removed tech-01 source=engine_start lock=L-11",
        "09:47 lock_removed tech-01 source=engine_start lock=L-11",
        Verdict.Unproven
    )]
    [InlineData(
        "09:39 lock_removed tech-01 source=engine_start lock=L-11",
        "09:47 lock_removed tech-01 source=engine_start lock=L-11",
        Verdict.NotMet
    )]
    public void Evaluate_InTheMinuteOfStartOrEnd_IsUnproven(string entry, string insteadOf, Verdict verdict)
    {
        var whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;
        Assert.Contains(insteadOf, whole, StringComparison.Ordinal);
        var rest = whole.Replace(insteadOf + "\n", string.Empty, StringComparison.Ordinal);

        // A proof is entered after the start, a lock taken off before the end: the wrong way round, if either is.
        var job = entry.Contains("verified", StringComparison.Ordinal)
            ? rest + "\n" + entry
            : rest.Replace("09:40 work_stopped", entry + "\n09:40 work_stopped", StringComparison.Ordinal);

        Assert.Equal(verdict, new SafetyCase().With(job).Judge(Protection).Verdict);
    }

    [Theory]
    // Before anything was switched off, with the lock on and nothing verified, between proof and work, at work, after the
    // work and still locked, after the lock came off.
    [InlineData("08:02", Verdict.NotMet, "isolated")]
    [InlineData("08:12", Verdict.Unproven, "verified dead")]
    [InlineData("08:19", Verdict.Met, "")]
    [InlineData("09:00", Verdict.Met, "")]
    [InlineData("09:42", Verdict.Met, "")]
    [InlineData("09:49", Verdict.NotMet, "isolated again")]
    [InlineData("09:54", Verdict.NotMet, "while the machine ran")]
    public void Evaluate_AdjusterTurnedOutsideTheWork_IsHandsInAllTheSame(
        string at,
        Verdict verdict,
        string told
    )
    {
        var outcome = Turning(at).Judge(Protection);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(verdict != Verdict.Met, outcome.Evidence.Contains("/units/0/entries/0"));
    }

    /// <summary>Where the log itself says that its time is wrong, only the clock says when.</summary>
    [Fact]
    public void Evaluate_AdjusterTurnedAtATimeAgainstTheLog_IsUnproven()
    {
        var outcome = Turning("09:00", "08:02").Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    private static SafetyCase Turning(params string[] times) =>
        new SafetyCase() with
        {
            Entries = MakeSafe.Complete.Entries,
            Units =
            [
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
                            At = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow(),
                        }),
                    ],
                },
            ],
        };

    /// <summary>Off, released and verified since: what was missing is the lock, and nothing else is told.</summary>
    [Fact]
    public void Evaluate_VerifiedAndNeverLocked_TellsTheLockAlone()
    {
        var outcome = MakeSafe.Complete.Without(TimelineEventKind.LockApplied).Judge(Protection);

        Assert.Contains("own lock on engine start", outcome.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("verified dead", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_SameEndEnteredTwice_LeavesNothingOpen()
    {
        var twice = new SafetyCase().With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + MakeSafe.Work
                + "09:41 work_stopped tech-01\n"
                + MakeSafe.After
        );

        Assert.Equal(Verdict.Met, twice.Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_NamedHelperWithoutWork_IsUnproven()
    {
        var two = MakeSafe.Complete with
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Assists)],
        };

        Assert.Contains("when tech-02 worked", two.Judge(Protection).Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OwnLockOffDuringWork_NamesTheMoment()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Isolation + MakeSafe.Work + "09:00 lock_removed tech-01 source=hydraulic lock=L-12"
            )
            .Judge(Protection);

        Assert.Equal(FindingReason.Unprotected, outcome.Reason);
        Assert.Contains("after the lock taken off at 09:00", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("/timeline/9", outcome.Evidence);
    }

    [Fact]
    public void Evaluate_BenchWithUnitSupportedAndReelWedged_IsMet()
    {
        const string timeline = "08:05 unit_supported tech-01\n08:06 reel_wedged tech-01\n" + MakeSafe.Work;

        Assert.Equal(Verdict.Met, Bench.With(timeline).Judge(Protection).Verdict);
        Assert.Equal(
            Verdict.NotMet,
            Bench.With(timeline).Without(TimelineEventKind.ReelWedged).Judge(Protection).Verdict
        );
    }

    [Theory]
    [InlineData(120, Verdict.Met)]
    [InlineData(60, Verdict.NotMet)]
    public void Evaluate_PressureThatComesBack_IsCheckedAsOftenAsTheProcedureSays(
        int minutes,
        Verdict verdict
    )
    {
        var source = SafetyCase.RideOn.Sources[1] with { RecheckMinutes = minutes };
        var procedure = SafetyCase.RideOn with { Sources = SafetyCase.RideOn.Sources.SetItem(1, source) };

        Assert.Equal(verdict, (MakeSafe.Complete with { Procedure = procedure }).Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_PressureCheckedInTime_IsMet()
    {
        var source = SafetyCase.RideOn.Sources[1] with { RecheckMinutes = 60 };
        var procedure = SafetyCase.RideOn with { Sources = SafetyCase.RideOn.Sources.SetItem(1, source) };
        var rechecked = (new SafetyCase() with { Procedure = procedure }).With(
            MakeSafe.Isolation + MakeSafe.Work + "09:10 stored_energy_rechecked tech-01 source=hydraulic"
        );

        Assert.Equal(Verdict.Met, rechecked.Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_StartedWhileAtWork_IsUnprotected()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Isolation + MakeSafe.Work + "09:00 test_energised tech-02\n09:05 test_ended tech-02"
            )
            .Judge(Protection);

        Assert.Equal(FindingReason.Unprotected, outcome.Reason);
        Assert.Contains("while tech-01 was at work", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_NoProcedure_IsNotRegisteredUnlessHandsWereInWhileItRan()
    {
        var none = MakeSafe.Complete with { Procedure = null };
        var running = none.With("08:00 test_energised tech-01\n" + MakeSafe.Work);

        Assert.Equal(FindingReason.NotRegistered, none.Judge(Protection).Reason);
        Assert.Equal(Verdict.NotMet, running.Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_OpenJobBeforeWork_SaysWhatIsStillToDoAndThenIsMet()
    {
        var open = new SafetyCase() with { IsSignedOff = false };
        var halfway = open.With("08:06 isolator_operated tech-01 source=all").Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (halfway.Verdict, halfway.Reason));
        Assert.StartsWith("Not yet shown for tech-01: ", halfway.Statement, StringComparison.Ordinal);
        Assert.Equal(Verdict.Met, open.With(MakeSafe.Isolation).Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_OpenJobAtWork_IsMetSoFar() =>
        Assert.Equal(
            Verdict.Met,
            (new SafetyCase() with { IsSignedOff = false })
                .With(MakeSafe.Isolation + "08:20 work_started tech-01")
                .Judge(Protection)
                .Verdict
        );

    [Fact]
    public void Evaluate_BlockageClearedWithoutWorkEntered_IsUnprotected()
    {
        var outcome = new SafetyCase()
            .With("08:10 blockage_cleared_with_tool tech-01\n" + MakeSafe.Isolation + MakeSafe.Work)
            .Judge(Protection);

        Assert.Contains("the blockage cleared with a tool", outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(Verdict.NotMet, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_ClocksGoBackDuringTheJob_InstantsDecide()
    {
        const string night = """
            2026-10-25T00:36:00+01:00 isolator_operated tech-01 source=all
            2026-10-25T00:40:00+01:00 lock_applied tech-01 source=engine_start lock=L-11
            2026-10-25T00:41:00+01:00 lock_applied tech-01 source=hydraulic lock=L-12
            2026-10-25T00:50:00+01:00 stored_energy_released tech-01 source=all
            2026-10-25T01:55:00+01:00 isolation_verified tech-01 source=all
            2026-10-25T01:05:00+00:00 work_started tech-01
            2026-10-25T02:10:00+00:00 work_stopped tech-01
            """;

        Assert.Equal(Verdict.Met, new SafetyCase().With(night).Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_VerifiedAtATimeThatTheClocksShowedTwice_IsNotCredible()
    {
        const string night = """
            2026-10-25T00:36:00+01:00 isolator_operated tech-01 source=all
            2026-10-25T00:40:00+01:00 lock_applied tech-01 source=all lock=L-11
            2026-10-25T00:50:00+01:00 stored_energy_released tech-01 source=all
            2026-10-25T01:30:00 isolation_verified tech-01 source=all
            2026-10-25T01:05:00+00:00 work_started tech-01
            2026-10-25T02:10:00+00:00 work_stopped tech-01
            """;

        var outcome = new SafetyCase().With(night).Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_ReleasedAgainBeforeWork_MustBeVerifiedAgain()
    {
        const string again = "08:18 stored_energy_released tech-01 source=hydraulic\n";
        var outcome = new SafetyCase().With(MakeSafe.Isolation + again + MakeSafe.Work).Judge(Protection);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "hydraulic pressure verified dead after its stored energy was released at 08:18",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(
                    MakeSafe.Isolation
                        + again
                        + "08:19 isolation_verified tech-01 source=hydraulic\n"
                        + MakeSafe.Work
                )
                .Judge(Protection)
                .Verdict
        );
    }

    [Fact]
    public void Evaluate_ReleasedBeforeItWasIsolated_DoesNotCount()
    {
        var early = MakeSafe.Isolation.Replace(
            "08:12 stored_energy_released",
            "08:05 stored_energy_released",
            StringComparison.Ordinal
        );

        Assert.Contains(
            "the stored energy of hydraulic pressure released after it was isolated",
            new SafetyCase().With(early + MakeSafe.Work).Judge(Protection).Statement,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("10:09 stored_energy_released tech-01 source=gravity", Verdict.Met)]
    [InlineData("10:09 units_lowered tech-01", Verdict.Met)]
    [InlineData("", Verdict.NotMet)]
    public void Evaluate_WorkAfterATestRun_NeedsEveryStoredEnergyReleasedAgain(
        string gravity,
        Verdict verdict
    )
    {
        var timeline =
            MakeSafe.Isolation
            + MakeSafe.Work
            + $"""
                09:47 lock_removed tech-01 source=engine_start lock=L-11
                09:48 lock_removed tech-01 source=hydraulic lock=L-12
                09:50 test_energised tech-01
                09:55 test_ended tech-01
                10:01 isolator_operated tech-01 source=all
                10:02 lock_applied tech-01 source=engine_start lock=L-11
                10:03 lock_applied tech-01 source=hydraulic lock=L-12
                10:08 stored_energy_released tech-01 source=hydraulic
                {gravity}
                10:10 isolation_verified tech-01 source=all
                10:12 work_started tech-01
                10:30 work_stopped tech-01
                """;

        Assert.Equal(verdict, new SafetyCase().With(timeline).Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_SameEventSentAgainLater_CountsOnce()
    {
        var resent = new SafetyCase().With(
            MakeSafe.Isolation
                + """
                08:20 work_started tech-01 id=e-20 received=08:21
                09:40 work_stopped tech-01
                09:47 lock_removed tech-01 source=engine_start lock=L-11
                08:20 work_started tech-01 id=e-20 received=09:50
                """
        );

        Assert.Equal(Verdict.Met, resent.Judge(Protection).Verdict);
    }
}
