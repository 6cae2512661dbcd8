using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Whose lock, tag, plug or key protects whom, and who may take it off.</summary>
public sealed class OwnControlTests
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

    // Nothing of a tag lies in the box: whoever hung it takes it off, whatever hangs there.
    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("08:19 tag_applied tech-02 source=hydraulic lock=G-02 at-lock-point=yes\n", Verdict.Met)]
    public void Evaluate_GroupBoxWhileATagHoldsAnIsolator_ProtectsWhoeverHungATagToo(
        string own,
        Verdict expected
    )
    {
        var procedure = SafetyCase.RideOn with
        {
            Sources =
            [
                .. SafetyCase.RideOn.Sources.Select(s =>
                    s.Id.Text == "hydraulic" ? s with { Lockable = false } : s
                ),
            ],
        };
        var job = new SafetyCase
        {
            Procedure = procedure,
            People = [SafetyCase.Person("tech-02")],
            Locks = [new(new("L-11"), null), new(new("L-21"), new("tech-02"))],
        }.With(
            MakeSafe.Isolation.Replace(
                "lock_applied tech-01 source=hydraulic lock=L-12",
                "tag_applied tech-01 source=hydraulic lock=G-01 at-lock-point=yes",
                StringComparison.Ordinal
            )
                + "08:18 lock_applied tech-02 source=group_box lock=L-21\n"
                + own
                + "08:20 work_started tech-02\n09:00 work_stopped tech-02\n"
        );

        Assert.Equal(expected, job.Judge(Protection).Verdict);
    }

    [Fact]
    public void Evaluate_JobLocks_ProtectNobodyByThemselves()
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

        Assert.Equal(Verdict.NotMet, alone.Judge(Protection).Verdict);
        var outcome = two.Judge(Protection);
        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("not tech-01's own", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("tech-02 starting work", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Evaluate_GroupBoxWhileAnotherPersonsOwnLockHoldsTheIsolator_DoesNotProtect()
    {
        var mixed = new SafetyCase
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02")],
            Locks =
            [
                new(new("L-11"), new("tech-01")),
                new(new("L-12"), new("tech-01")),
                new(new("L-21"), new("tech-02")),
            ],
        }.With(
            MakeSafe.Isolation
                + MakeSafe.Work
                + """
                08:30 lock_applied tech-02 source=group_box lock=L-21
                08:31 work_started tech-02
                09:00 work_stopped tech-02
                """
        );

        Assert.Contains("tech-02's own lock", mixed.Judge(Protection).Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-04-14T06:50:00+01:00 owner_informed lead-01 others=tech-01", Verdict.Met)]
    [InlineData("2026-04-14T07:40:00+01:00 owner_informed lead-01 others=tech-01", Verdict.NotMet)]
    [InlineData("2026-04-14T06:50:00+01:00 owner_informed lead-01 others=tech-02", Verdict.NotMet)]
    [InlineData("", Verdict.NotMet)]
    public void Evaluate_LockTakenOffUnderTheException_TheOwnerIsToldBeforeWorkingAgain(
        string informed,
        Verdict verdict
    )
    {
        var absent = new SafetyCase().With(
            MakeSafe.Isolation
                + MakeSafe.Work
                + $"""
                17:00 absence_confirmed lead-01 others=tech-01
                17:05 contact_attempted lead-01 others=tech-01
                17:20 lock_removed lead-01 source=engine_start lock=L-11 exception=P-90
                17:21 lock_removed lead-01 source=hydraulic lock=L-12 exception=P-90
                {informed}
                2026-04-14T07:00:00+01:00 resumed_work tech-01
                """
        );

        var written = absent with
        {
            Registered = context => context with { RemovalException = new("P-90", [new("lead-01")]) },
        };

        Assert.Equal(verdict, written.Judge(Protection).Verdict);
        Assert.NotEqual(Verdict.Met, absent.Judge(Protection).Verdict);
    }
}
