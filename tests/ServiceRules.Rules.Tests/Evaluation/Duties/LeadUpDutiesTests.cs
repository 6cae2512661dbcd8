using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class LeadUpDutiesTests
{
    private static readonly SafetyCase Complete = MakeSafe.Complete;

    public static TheoryData<EnergyDuty> BeforeWork =>
        [
            EnergyDuty.EnergyReviewed,
            EnergyDuty.OrderlyShutdown,
            EnergyDuty.SourcesIsolated,
            EnergyDuty.DeviceOnEachIsolator,
            EnergyDuty.StoredEnergyReleased,
            EnergyDuty.IsolationVerified,
            EnergyDuty.MakeSafeOrder,
            EnergyDuty.OwnDeviceThroughWork,
        ];

    [Theory]
    [MemberData(nameof(BeforeWork))]
    public void Judge_EverythingInItsTurn_IsMet(EnergyDuty of) =>
        Assert.Equal(Verdict.Met, Complete.VerdictOf(of));

    [Theory]
    [MemberData(nameof(BeforeWork))]
    public void Judge_NothingEnteredYet_CanStillBeDone(EnergyDuty of)
    {
        var outcome = (new SafetyCase() with { IsSignedOff = false }).Duty(of);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [MemberData(nameof(BeforeWork))]
    public void Judge_HandsInAtOnceOnAJobThatGoesOn_IsNotMetAtOnce(EnergyDuty of)
    {
        var hasty = (new SafetyCase() with { IsSignedOff = false }).With("08:20 work_started tech-01");

        // With a single step there is no order yet.
        Assert.Equal(of == EnergyDuty.MakeSafeOrder ? Verdict.Unproven : Verdict.NotMet, hasty.VerdictOf(of));
    }

    [Theory]
    [InlineData(EnergyDuty.OrderlyShutdown)]
    [InlineData(EnergyDuty.SourcesIsolated)]
    [InlineData(EnergyDuty.DeviceOnEachIsolator)]
    [InlineData(EnergyDuty.StoredEnergyReleased)]
    [InlineData(EnergyDuty.IsolationVerified)]
    public void Judge_MachineStartedBetweenTheStepsAndTheWork_WhatRunningUndoesIsNotMet(EnergyDuty of) =>
        Assert.Equal(
            Verdict.NotMet,
            new SafetyCase()
                .With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + "08:18 machine_started tech-01\n"
                        + MakeSafe.Work
                        + MakeSafe.After
                )
                .VerdictOf(of)
        );

    // 29 CFR 1910.147(d)(5)(i): relieved, disconnected, restrained or otherwise rendered safe.
    [Theory]
    [InlineData("08:02 units_lowered tech-01", Verdict.Met)]
    [InlineData("08:05 unit_supported tech-01", Verdict.Met)]
    [InlineData("08:21 unit_supported tech-01", Verdict.NotMet)]
    [InlineData("08:05 reel_wedged tech-01", Verdict.NotMet)]
    [InlineData("08:05 parking_brake_set tech-01", Verdict.NotMet)]
    public void StoredEnergyReleased_RaisedUnitsThatNobodyEntersAsReleased_AreReleasedWhereLoweredOrHeld(
        string entry,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            new SafetyCase()
                .With(
                    MakeSafe.Seat.Replace("08:02 units_lowered tech-01\n", "", StringComparison.Ordinal)
                        + MakeSafe.Isolation.Replace(
                            "08:14 stored_energy_released tech-01 source=gravity\n",
                            "",
                            StringComparison.Ordinal
                        )
                        + entry
                        + "\n"
                        + MakeSafe.Work
                        + MakeSafe.After
                )
                .VerdictOf(EnergyDuty.StoredEnergyReleased)
        );

    [Fact]
    public void MakeSafeOrder_FinishedJobThatShowsNoWork_SaysSoInsteadOfTooFewSteps()
    {
        var outcome = new SafetyCase()
            .With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.After)
            .Duty(EnergyDuty.MakeSafeOrder);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("not when hands-on work started", outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(9, outcome.Evidence.Length);
    }

    [Fact]
    public void EnergyReviewed_MachineStartedSince_IsKnownAllTheSame() =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(
                    "07:00 energy_reviewed tech-01\n07:30 machine_started tech-01\n"
                        + Steps(MakeSafe.Seat)
                            .Replace("08:01 energy_reviewed", "08:01 gloves_worn", StringComparison.Ordinal)
                )
                .VerdictOf(EnergyDuty.EnergyReviewed)
        );

    [Fact]
    public void EnergyReviewed_OnlyByWhomTheRegisterDoesNotAuthorise_IsNotMet()
    {
        var outcome = (Complete with { Register = [new(new("tech-01"), false, null, null)] }).Duty(
            EnergyDuty.EnergyReviewed
        );

        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void EnergyReviewed_OnlyByWhomTheRegisterDoesNotHave_IsUnproven() =>
        Assert.Equal(
            FindingReason.NotRegistered,
            (Complete with { Register = [new(new("lead-01"), true, null, null)] })
                .Duty(EnergyDuty.EnergyReviewed)
                .Reason
        );

    [Fact]
    public void DeviceOnEachIsolator_HungBeforeTheIsolatorWasOff_SaysWhen()
    {
        var outcome = Changed(
                "08:08 lock_applied tech-01 source=engine_start",
                "08:05 lock_applied tech-01 source=engine_start"
            )
            .Duty(EnergyDuty.DeviceOnEachIsolator);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "after it was turned off at 08:06 (put on at 08:05)",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(
        "08:17 isolation_verified tech-01 source=all",
        "08:08 isolation_verified tech-01 source=all",
        "before"
    )]
    [InlineData(
        "08:14 stored_energy_released tech-01 source=gravity",
        "08:18 stored_energy_released tech-01 source=gravity",
        "before its stored energy was released at 08:18"
    )]
    public void IsolationVerified_AtTheWrongTime_SaysWhatStandsInstead(string was, string now, string why)
    {
        var outcome = Changed(was, now).Duty(EnergyDuty.IsolationVerified);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            why,
            string.Join(' ', outcome.Notices.Prepend(outcome.Statement)),
            StringComparison.Ordinal
        );
    }

    /// <summary>To the second it is too late; to the minute the order of the entries tells which came first.</summary>
    [Theory]
    [InlineData("2026-04-13T08:20:30+01:00", Verdict.NotMet, "at the very time")]
    [InlineData("08:20", Verdict.Met, "in the very minute in which work started")]
    public void IsolationVerified_AtTheTimeAtWhichWorkStarted_CountsBySecondsNoted(
        string at,
        Verdict verdict,
        string why
    )
    {
        var steps = Steps(MakeSafe.Seat)
            .Replace("08:17 isolation_verified", $"{at} isolation_verified", StringComparison.Ordinal)
            .Replace("08:20 work_started", $"{at} work_started", StringComparison.Ordinal);

        var outcome = new SafetyCase().With(steps).Duty(EnergyDuty.IsolationVerified);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains(
            why,
            string.Join(' ', outcome.Notices.Prepend(outcome.Statement)),
            StringComparison.Ordinal
        );
    }

    /// <summary>Entered after the start of work, in the same minute.</summary>
    [Fact]
    public void SourcesIsolated_EnteredAfterTheStartInTheSameMinute_IsUnproven()
    {
        var off = "08:06 isolator_operated tech-01 source=engine_start\n";
        var steps = Steps(MakeSafe.Seat).Replace(off, string.Empty, StringComparison.Ordinal);

        var outcome = new SafetyCase()
            .With(steps + "\n08:20 isolator_operated tech-01 source=engine_start")
            .Duty(EnergyDuty.SourcesIsolated);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void MakeSafeOrder_ReleasedTooEarlyAndAgainInItsTurn_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            Complete
                .With(
                    MakeSafe.Seat
                        + "08:05 stored_energy_released tech-01 source=hydraulic\n"
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                )
                .VerdictOf(EnergyDuty.MakeSafeOrder)
        );

    [Theory]
    [InlineData("08:03 machine_shut_down tech-01", "08:07 machine_shut_down tech-01")]
    [InlineData("08:01 energy_reviewed tech-01", "08:04 energy_reviewed tech-01")]
    [InlineData(
        "08:12 stored_energy_released tech-01 source=hydraulic",
        "08:07 stored_energy_released tech-01 source=hydraulic"
    )]
    [InlineData(
        "08:06 isolator_operated tech-01 source=engine_start",
        "08:10 isolator_operated tech-01 source=engine_start"
    )]
    [InlineData(
        "08:12 stored_energy_released tech-01 source=hydraulic",
        "08:19 stored_energy_released tech-01 source=hydraulic"
    )]
    public void MakeSafeOrder_OneStepOutOfItsTurn_IsNotMet(string was, string now) =>
        Assert.Equal(
            (Verdict.NotMet, FindingReason.WrongOrder),
            Changed(was, now).Duty(EnergyDuty.MakeSafeOrder) is var outcome
                ? (outcome.Verdict, outcome.Reason)
                : default
        );

    [Fact]
    public void MakeSafeOrder_OwnLockOfASecondPersonAfterTheProof_DoesNotResetIt() =>
        Assert.Equal(
            Verdict.Met,
            Complete
                .With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + "08:18 lock_applied tech-02 source=engine_start lock=L-21\n"
                        + MakeSafe.Work
                )
                .VerdictOf(EnergyDuty.MakeSafeOrder)
        );

    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("08:05:30 lock_removed tech-01 source=engine_start lock=L-19\n", Verdict.Met)]
    public void MakeSafeOrder_LockHungBeforeTheIsolatorWasOff_IsMendedOnlyByTakingItOffAgain(
        string off,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Complete
                .With(
                    MakeSafe.Seat
                        + "08:05 lock_applied tech-01 source=engine_start lock=L-19\n"
                        + off
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                )
                .VerdictOf(EnergyDuty.MakeSafeOrder)
        );

    [Fact]
    public void MakeSafeOrder_OutOfOrderBeforeHandsAreIn_CanBeDoneAgain()
    {
        var outcome = (
            Complete.With(
                MakeSafe.Seat + MakeSafe.Isolation.Replace("08:17", "08:11", StringComparison.Ordinal)
            ) with
            {
                IsSignedOff = false,
            }
        ).Duty(EnergyDuty.MakeSafeOrder);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData("position=off", 0)]
    [InlineData("", 1)]
    public void DeviceHoldsOff_PositionThatNobodyWroteDown_IsToldAndNoFault(string position, int notices)
    {
        var outcome = Complete
            .With(
                $"08:06 isolator_operated tech-01 source=hydraulic {position}\n08:08 lock_applied tech-01 source=hydraulic lock=L-12"
            )
            .Duty(EnergyDuty.DeviceHoldsOff);

        Assert.Equal((Verdict.Met, notices), (outcome.Verdict, outcome.Notices.Length));
    }

    [Theory]
    [InlineData("at-lock-point=yes", Verdict.NotMet, Verdict.Met)]
    [InlineData("at-lock-point=yes extra=fuse", Verdict.Met, Verdict.Met)]
    [InlineData("", Verdict.NotMet, Verdict.NotMet)]
    public void Tag_OnAnIsolatorThatTakesALock(string members, Verdict whereItFits, Verdict atLockPoint)
    {
        var tagged = Complete.With(
            $"08:06 isolator_operated tech-01 source=hydraulic\n08:08 tag_applied tech-01 source=hydraulic lock=G-1 {members}\n"
                + MakeSafe.Work
        );

        Assert.Equal(whereItFits, tagged.VerdictOf(EnergyDuty.LockWhereItFits));
        Assert.Equal(atLockPoint, tagged.VerdictOf(EnergyDuty.TagAtLockPoint));
    }

    [Fact]
    public void BuildUpRechecked_PressureReadHigherThanBefore_IsTold()
    {
        var outcome = (
            Complete with
            {
                Procedure = SafetyCase.RideOn with
                {
                    Sources =
                    [
                        SafetyCase.Source(
                            "hydraulic",
                            "hydraulic pressure",
                            "valve",
                            true,
                            true,
                            recheck: 30
                        ),
                    ],
                },
            }
        )
            .With(
                """
                08:17 isolation_verified tech-01 source=hydraulic pressure=0_bar
                08:20 work_started tech-01
                08:40 stored_energy_rechecked tech-01 source=hydraulic pressure=38_bar
                09:00 work_stopped tech-01
                """
            )
            .Duty(EnergyDuty.BuildUpRechecked);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "read 38 bar at 08:40, up from 0 bar",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void BuildUpRechecked_NoTimeStated_IsSaidAndHeldAgainstNobody()
    {
        var outcome = (
            Complete with
            {
                Procedure = SafetyCase.RideOn with
                {
                    Sources =
                    [
                        SafetyCase.Source("hydraulic", "hydraulic pressure", "valve", true, true) with
                        {
                            Reaccumulates = true,
                        },
                    ],
                },
            }
        ).Duty(EnergyDuty.BuildUpRechecked);

        Assert.Equal(Verdict.NotApplicable, outcome.Verdict);
        Assert.Contains("State in the procedure", Assert.Single(outcome.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_NeitherProcedureNorRegisterOfMachines_CannotBeHeldAgainstAnything() =>
        Assert.Equal(
            FindingReason.NotRegistered,
            (Complete with { Procedure = null }).Duty(EnergyDuty.SourcesIsolated).Reason
        );

    [Fact]
    public void SourcesIsolated_SourceThatOnlyTheRegisterOfMachinesHas_IsAskedToo()
    {
        var outcome = (
            Complete with
            {
                Registered = registers =>
                    registers with
                    {
                        Machines =
                        [
                            new(
                                new("M-1"),
                                "ride-on",
                                [
                                    SafetyCase.Source(
                                        "spark",
                                        "ignition",
                                        isolator: "plug lead",
                                        lockable: true
                                    ),
                                ]
                            ),
                        ],
                    },
            }
        ).Duty(EnergyDuty.SourcesIsolated);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("for ignition", outcome.Statement, StringComparison.Ordinal);
    }

    private static string Steps(string seat) => seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    internal static SafetyCase Changed(string was, string now)
    {
        var timeline = Steps(MakeSafe.Seat);
        Assert.Contains(was, timeline, StringComparison.Ordinal);
        return new SafetyCase().With(timeline.Replace(was, now, StringComparison.Ordinal));
    }
}
