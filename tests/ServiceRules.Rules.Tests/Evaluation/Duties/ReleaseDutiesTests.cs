using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class ReleaseDutiesTests
{
    private const string Exception = """
        08:20 work_started tech-01
        09:40 work_stopped tech-01
        09:43 area_inspected lead-01
        17:00 absence_confirmed lead-01 others=tech-01
        17:05 contact_attempted lead-01 others=tech-01
        17:20 lock_removed lead-01 source=engine_start lock=L-11 exception=P-90

        """;

    private static readonly SafetyCase WithOthers = MakeSafe.Complete with
    {
        People = [SafetyCase.Person("tech-01"), SafetyCase.Person("op-01", JobRole.Affected)],
        Registered = registers => registers with { RemovalException = new("P-90", [new("lead-01")]) },
    };

    private static readonly SafetyCase SignedByTheLead = WithOthers with
    {
        Recorded = record => record with { SignOff = new(new("lead-01"), record.SignOff!.At) },
    };

    public static TheoryData<EnergyDuty> Release =>
        [
            EnergyDuty.AffectedTold,
            EnergyDuty.AffectedToldAfter,
            EnergyDuty.ToldBeforeStart,
            EnergyDuty.AreaInspected,
            EnergyDuty.PeopleClear,
            EnergyDuty.DeviceOffByOwner,
        ];

    [Theory]
    [MemberData(nameof(Release))]
    public void Judge_EverythingInItsTurn_IsMet(EnergyDuty of) =>
        Assert.Equal(Verdict.Met, WithOthers.VerdictOf(of));

    [Theory]
    [InlineData("09:50", "09:56", Verdict.NotMet, Verdict.Met)]
    [InlineData("09:50", "09:47", Verdict.NotMet, Verdict.NotMet)]
    [InlineData("09:50", "09:48", Verdict.Met, Verdict.Met)]
    public void Told_AtAnotherTime_BeforeTheStartAndAfterTheRemovalAreTwoThings(
        string was,
        string now,
        Verdict beforeStart,
        Verdict after
    )
    {
        var late = Changed(was, now);

        Assert.Equal(beforeStart, late.VerdictOf(EnergyDuty.ToldBeforeStart));
        Assert.Equal(after, late.VerdictOf(EnergyDuty.AffectedToldAfter));
    }

    [Theory]
    [InlineData("affected_notified_before lead-01", EnergyDuty.AffectedTold)]
    [InlineData("removal_notified lead-01", EnergyDuty.AffectedToldAfter)]
    [InlineData("removal_notified lead-01", EnergyDuty.ToldBeforeStart)]
    public void Told_ByANoticeThatNamesNobody_IsMetWithTheRemarkThatNothingShowsWhom(
        string notice,
        EnergyDuty of
    )
    {
        var outcome = Changed($"{notice} others=op-01", notice).Duty(of);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.EndsWith(
            "names nobody: who was told is not shown.",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
        Assert.Empty(WithOthers.Duty(of).Notices);
    }

    [Theory]
    [InlineData("affected_notified_before lead-01", EnergyDuty.AffectedTold)]
    [InlineData("removal_notified lead-01", EnergyDuty.AffectedToldAfter)]
    [InlineData("removal_notified lead-01", EnergyDuty.ToldBeforeStart)]
    public void Told_ByANoticeThatNamesOnlyWhoeverGaveIt_IsNotShown(string notice, EnergyDuty of)
    {
        var outcome = Changed($"{notice} others=op-01", $"{notice} others=lead-01").Duty(of);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("names only lead-01, who gave it", outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(
            Verdict.Met,
            Changed($"{notice} others=op-01", $"{notice} others=lead-01,op-01").VerdictOf(of)
        );
    }

    [Fact]
    public void ToldBeforeStart_StartedWithOneLockStillOn_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Changed("09:48 lock_removed", "09:54 lock_removed").VerdictOf(EnergyDuty.ToldBeforeStart)
        );

    [Fact]
    public void AffectedTold_InTheMinuteOfTheFirstLock_IsInTime() =>
        Assert.Equal(Verdict.Met, Changed("08:00 aff", "08:08 aff").VerdictOf(EnergyDuty.AffectedTold));

    [Theory]
    [InlineData("09:43 area", "09:47:30 area", EnergyDuty.AreaInspected)]
    [InlineData("09:45 people", "09:47:30 people", EnergyDuty.PeopleClear)]
    [InlineData("09:43 area", "09:39 area", EnergyDuty.AreaInspected)]
    public void ClearBeforeRelease_OutsideTheWorkAndTheFirstLockOff_IsNotMet(
        string was,
        string now,
        EnergyDuty of
    ) => Assert.Equal(Verdict.NotMet, Changed(was, now).VerdictOf(of));

    /// <summary>Members take their own locks off the box and go; the isolators stay held by the job locks.</summary>
    [Theory]
    [InlineData("09:49", Verdict.Met)]
    [InlineData("09:44", Verdict.NotMet)]
    public void ClearBeforeRelease_OwnLocksOffTheBox_AreNotTheFirstOffAnIsolator(
        string jobLocksOff,
        Verdict expected
    )
    {
        var group = new SafetyCase().With(
            $"""
            08:06 isolator_operated tech-01 source=engine_start
            08:07 isolator_operated tech-01 source=hydraulic
            08:08 lock_applied tech-01 source=engine_start lock=J-1 position=off
            08:09 lock_applied tech-01 source=hydraulic lock=J-2 position=closed
            08:12 stored_energy_released tech-01 source=hydraulic
            08:14 stored_energy_released tech-01 source=gravity
            08:17 isolation_verified tech-01 source=all
            08:18 lock_applied tech-01 source=group_box lock=L-11
            08:20 work_started tech-01
            09:40 work_stopped tech-01
            09:41 lock_removed tech-01 source=group_box lock=L-11
            09:43 area_inspected tech-01
            09:45 people_clear_checked tech-01
            {jobLocksOff} lock_removed tech-01 source=engine_start lock=J-1
            {jobLocksOff} lock_removed tech-01 source=hydraulic lock=J-2
            """
        );

        Assert.Equal(Verdict.Met, group.VerdictOf(EnergyDuty.AreaInspected));
        Assert.Equal(expected, group.VerdictOf(EnergyDuty.PeopleClear));
    }

    [Fact]
    public void AreaInspected_JobThatGoesOnBeforeWork_IsToBeDone() =>
        Assert.Equal(
            FindingReason.InProgress,
            (
                WithOthers.With("07:50 machine_started tech-01\n" + MakeSafe.Isolation) with
                {
                    IsSignedOff = false,
                }
            )
                .Duty(EnergyDuty.AreaInspected)
                .Reason
        );

    [Theory]
    [InlineData("", Verdict.Met, Verdict.Met, Verdict.Met, Verdict.NotApplicable)]
    [InlineData(
        "06:50+1 owner_informed lead-01 others=tech-01\n07:00+1 resumed_work tech-01",
        Verdict.Met,
        Verdict.Met,
        Verdict.Met,
        Verdict.Met
    )]
    [InlineData(
        "07:00+1 resumed_work tech-01\n07:30+1 owner_informed lead-01 others=tech-01",
        Verdict.NotMet,
        Verdict.Met,
        Verdict.Met,
        Verdict.NotMet
    )]
    [InlineData(
        "17:10 gloves_worn tech-01\n17:40 owner_informed lead-01 others=tech-01",
        Verdict.NotMet,
        Verdict.NotMet,
        Verdict.Met,
        Verdict.Met
    )]
    public void AbsentOwner_WhatFollows_DecidesWhetherTheExceptionHolds(
        string after,
        Verdict byOwner,
        Verdict absent,
        Verdict sought,
        Verdict told
    )
    {
        var job = SignedByTheLead.With(
            MakeSafe.Isolation
                + Exception
                + after
                    .Replace("06:50+1", "2026-04-14T06:50:00+01:00", StringComparison.Ordinal)
                    .Replace("07:00+1", "2026-04-14T07:00:00+01:00", StringComparison.Ordinal)
                    .Replace("07:30+1", "2026-04-14T07:30:00+01:00", StringComparison.Ordinal)
        );

        Assert.Equal(byOwner, job.VerdictOf(EnergyDuty.DeviceOffByOwner));
        Assert.Equal(absent, job.VerdictOf(EnergyDuty.OwnerAbsent));
        Assert.Equal(sought, job.VerdictOf(EnergyDuty.OwnerSought));
        Assert.Equal(told, job.VerdictOf(EnergyDuty.OwnerTold));
    }

    [Theory]
    [InlineData("", "lead-01", Verdict.Met, Verdict.NotApplicable)]
    [InlineData("", "tech-01", Verdict.Met, Verdict.NotMet)]
    [InlineData("17:40 owner_informed lead-01 others=tech-01", "tech-01", Verdict.Met, Verdict.Met)]
    [InlineData("17:50 owner_informed tech-01 others=tech-01", "lead-01", Verdict.Unproven, Verdict.Met)]
    [InlineData("17:51 owner_informed tech-01 others=tech-01", "lead-01", Verdict.Met, Verdict.Met)]
    public void AbsentOwner_ShownThereSoonAfter_WasNotAbsent(
        string after,
        string signedBy,
        Verdict absent,
        Verdict told
    )
    {
        var job = SignedByTheLead.With(MakeSafe.Isolation + Exception + after) with
        {
            Recorded = record => record with { SignOff = new(new(signedBy), record.SignOff!.At) },
        };

        Assert.Equal(absent, job.VerdictOf(EnergyDuty.OwnerAbsent));
        Assert.Equal(told, job.VerdictOf(EnergyDuty.OwnerTold));
    }

    [Theory]
    [InlineData("2026-04-13T17:35:00+01:00", Verdict.Unproven)]
    [InlineData("2026-04-13T17:10:00+01:00", Verdict.NotMet)]
    [InlineData("2026-04-13T18:30:00+01:00", Verdict.Met)]
    public void AbsentOwner_ActingInAnotherRecord_WasNotAbsent(string at, Verdict expected)
    {
        var entry = new TimelineEvent
        {
            Kind = TimelineEventKind.GlovesWorn,
            At = RecordedTime.Parse(at).OrThrow(),
            Actor = new("tech-01"),
        };
        var job = SignedByTheLead.With(MakeSafe.Isolation + Exception) with
        {
            Registered = registers =>
                WithOthers.Registered(registers) with
                {
                    OtherRecords = [new(new("J-7"), new("M-9"), null, [entry])],
                },
        };

        var outcome = job.Duty(EnergyDuty.OwnerAbsent);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected != Verdict.Met,
            outcome.Statement.Contains("in record J-7, of M-9", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void AbsentOwner_SoughtOnlyAfterTheRemoval_WasSoughtAllTheSame() =>
        Assert.Equal(
            Verdict.Met,
            WithOthers
                .With(
                    MakeSafe.Isolation
                        + Exception.Replace("17:05 contact", "17:30 contact", StringComparison.Ordinal)
                )
                .VerdictOf(EnergyDuty.OwnerSought)
        );

    [Fact]
    public void DeviceOffByOwner_ExceptionOfAnotherName_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            WithOthers
                .With(MakeSafe.Isolation + Exception.Replace("P-90", "P-91", StringComparison.Ordinal))
                .VerdictOf(EnergyDuty.DeviceOffByOwner)
        );

    [Fact]
    public void DeviceOffByOwner_JobLockByWhoeverWasPutInCharge_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            (WithOthers with { Locks = [new(new("J-1"), null)] })
                .With(
                    """
                    07:50 primary_assigned lead-01 others=tech-02
                    08:08 lock_applied tech-01 source=engine_start lock=J-1
                    09:47 lock_removed tech-02 source=engine_start lock=J-1
                    """
                )
                .VerdictOf(EnergyDuty.DeviceOffByOwner)
        );

    [Fact]
    public void DeviceOffByOwner_TagByWhoeverWasPutInCharge_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            (WithOthers with { Locks = [new(new("G-1"), null) { IsTag = true }] })
                .With(
                    """
                    07:50 primary_assigned lead-01 others=tech-02
                    08:08 tag_applied tech-01 source=engine_start lock=G-1
                    09:47 tag_removed tech-02 source=engine_start lock=G-1
                    """
                )
                .VerdictOf(EnergyDuty.DeviceOffByOwner)
        );

    [Fact]
    public void PeopleClear_MachineOnWhichNothingCanBeSwitchedOff_IsAskedWithoutAnyLock() =>
        Assert.Equal(
            Verdict.NotMet,
            (
                WithOthers with
                {
                    Procedure = SafetyCase.RideOn with
                    {
                        Sources = [SafetyCase.Source("gravity", "raised unit", stored: true)],
                    },
                }
            )
                .With(MakeSafe.Work + "09:53 machine_started tech-01")
                .VerdictOf(EnergyDuty.PeopleClear)
        );

    [Theory]
    [InlineData("ext-01", Verdict.Met)]
    [InlineData("ext-02", Verdict.Met)]
    [InlineData("tech-01", Verdict.NotMet)]
    public void OutsideDevice_TakenOff_OnlyByPeopleFromOutside(string by, Verdict expected) =>
        Assert.Equal(
            expected,
            (
                WithOthers with
                {
                    Register =
                    [
                        new(new("tech-01"), true, null, null),
                        new(new("ext-01"), true, null, null) { Employer = Employer.Outside },
                        new(new("ext-02"), true, null, null) { Employer = Employer.Outside },
                    ],
                }
            )
                .With(
                    $"""
                    08:08 lock_applied ext-01 source=engine_start lock=L-40
                    09:47 lock_removed {by} source=engine_start lock=L-40
                    """
                )
                .VerdictOf(EnergyDuty.OutsideDeviceLeftAlone)
        );

    private static SafetyCase Changed(string was, string now)
    {
        var timeline = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;
        Assert.Contains(was, timeline, StringComparison.Ordinal);
        return WithOthers.With(timeline.Replace(was, now, StringComparison.Ordinal));
    }
}
