using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class ProtectionCheckTests
{
    private static readonly Check Protection = new Check.Protection();

    private static readonly SafetyCase Pedestrian = new()
    {
        Procedure = SafetyCase.RideOn with
        {
            Controls = new(Key: false, ParkingBrake: false, LoweringUnits: false, ReelDrive: true),
            Sources =
            [
                SafetyCase.Source("engine_start", "engine start", isolator: "plug lead"),
                SafetyCase.Source("reel_rotation", "turning reel", stored: true),
            ],
        },
    };

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
    public void Evaluate_WorkEndedNotEntered_IsUnprovenOnAClosedJob()
    {
        var outcome = MakeSafe.Complete.Without(TimelineEventKind.WorkStopped).Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Contains("when tech-01 stopped work", outcome.Statement, StringComparison.Ordinal);
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
    public void Evaluate_LockTakenOffByAnother_IsWrongPerson()
    {
        var outcome = MakeSafe
            .Complete.With(
                MakeSafe.Isolation
                    + MakeSafe.Work
                    + "09:47 lock_removed tech-02 source=engine_start lock=L-11"
            )
            .Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), (outcome.Verdict, outcome.Reason));
        Assert.Contains("L-11", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_LockIssuedToAnother_IsNotOnesOwn()
    {
        var borrowed = MakeSafe.Complete with
        {
            Locks = [new(new("L-11"), new("tech-02")), new(new("L-12"), new("tech-01"))],
        };

        var outcome = borrowed.Judge(Protection);

        Assert.Equal(FindingReason.Unprotected, outcome.Reason);
        Assert.Contains("lock L-11 is issued to somebody else", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_LockNotInTheRegister_IsNotRegistered()
    {
        var unknown = MakeSafe.Complete with { Locks = [new(new("L-12"), new("tech-01"))] };

        var outcome = unknown.Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.NotRegistered), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_TagWhereTheIsolatorTakesALock_DoesNotProtect()
    {
        var tagged = new SafetyCase().With(
            MakeSafe.Isolation.Replace(
                "lock_applied tech-01 source=hydraulic lock=L-12",
                "tag_applied tech-01 source=hydraulic lock=G-01 at-lock-point=yes",
                StringComparison.Ordinal
            ) + MakeSafe.Work
        );

        Assert.Contains("tag G-01", tagged.Judge(Protection).Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("08:05 plug_removed tech-01\n08:05 plug_control_confirmed tech-01", Verdict.Met)]
    [InlineData(
        "08:05 isolator_operated tech-01 source=engine_start\n08:06 tag_applied tech-01 source=engine_start lock=G-1 at-lock-point=yes",
        Verdict.Met
    )]
    [InlineData(
        "08:05 isolator_operated tech-01 source=engine_start\n08:06 tag_applied tech-01 source=engine_start lock=G-1",
        Verdict.NotMet
    )]
    [InlineData("08:05 plug_removed tech-01", Verdict.NotMet)]
    [InlineData(
        "08:05 isolator_operated tech-01 source=engine_start\n08:06 key_removed tech-01",
        Verdict.NotMet
    )]
    public void Evaluate_IsolatorThatTakesNoLock_NeedsTagAtTheLockPointOrPlugKept(
        string control,
        Verdict verdict
    )
    {
        var outcome = Pedestrian
            .With(
                control
                    + "\n08:08 reel_wedged tech-01\n08:10 isolation_verified tech-01 source=all\n"
                    + MakeSafe.Work
            )
            .Judge(Protection);

        Assert.Equal(verdict, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_KeyKept_ProtectsOnlyWhereTheMachineHasAKeyAndTheIsolatorTakesNoLock()
    {
        const string timeline = """
            08:05 isolator_operated tech-01 source=engine_start
            08:06 key_removed tech-01
            08:08 reel_wedged tech-01
            08:10 isolation_verified tech-01 source=all

            """;
        var keyed = Pedestrian with
        {
            Procedure = Pedestrian.Procedure! with { Controls = new(Key: true, false, false, true) },
        };

        Assert.Equal(Verdict.Met, keyed.With(timeline + MakeSafe.Work).Judge(Protection).Verdict);
        Assert.Equal(
            Verdict.NotMet,
            (keyed with { People = [SafetyCase.Person("tech-02")] })
                .With(timeline + "08:20 work_started tech-02\n08:30 work_stopped tech-02")
                .Judge(Protection)
                .Verdict
        );
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

    [Fact]
    public void Evaluate_GroupBoxWithoutJobLocks_DoesNotProtect()
    {
        var box = new SafetyCase() { Locks = [new(new("L-11"), new("tech-01"))] }.With(
            """
            08:06 isolator_operated tech-01 source=all
            08:12 stored_energy_released tech-01 source=all
            08:17 isolation_verified tech-01 source=all
            08:18 lock_applied tech-01 source=group_box lock=L-11

            """ + MakeSafe.Work
        );

        Assert.Contains(
            "no job lock holds the isolator",
            box.Judge(Protection).Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_JobLocksHungByOneOfTwo_DoNotProtectEither()
    {
        var people = (SafetyCase)(
            new SafetyCase() with
            {
                Locks = [new(new("L-11"), null), new(new("L-12"), null)],
            }
        );
        var alone = people.With(MakeSafe.Isolation + MakeSafe.Work);
        var two = (
            people with
            {
                People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02")],
            }
        ).With(MakeSafe.Isolation + MakeSafe.Work + "08:30 work_started tech-02\n08:40 work_stopped tech-02");

        Assert.Equal(Verdict.Met, alone.Judge(Protection).Verdict);
        var outcome = two.Judge(Protection);
        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("not tech-01's own", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("tech-02 starting work", StringComparison.Ordinal)
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
            2026-10-25T00:40:00+01:00 lock_applied tech-01 source=all lock=L-11
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
}
