using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class PeopleDutiesTests
{
    private const string Group = """
        07:50 primary_assigned lead-01 others=tech-01
        08:06 isolator_operated tech-01 source=engine_start
        08:07 isolator_operated tech-01 source=hydraulic
        08:08 lock_applied tech-01 source=engine_start lock=J-1
        08:09 lock_applied tech-01 source=hydraulic lock=J-2
        08:18 lock_applied tech-01 source=group_box lock=L-1
        08:19 lock_applied tech-02 source=group_box lock=L-2
        08:20 work_started tech-01
        08:21 work_started tech-02
        09:00 work_stopped tech-02
        09:01 lock_removed tech-02 source=group_box lock=L-2
        09:30 work_stopped tech-01
        09:35 exposure_checked tech-01 others=tech-01,tech-02
        09:40 lock_removed tech-01 source=group_box lock=L-1
        09:41 lock_removed tech-01 source=engine_start lock=J-1
        09:42 lock_removed tech-01 source=hydraulic lock=J-2

        """;

    private static readonly RegisteredPerson Ours = new(new("tech-01"), true, null, null);

    private const string Handover = """
        08:08 lock_applied tech-01 source=engine_start lock=L-1
        08:20 work_started tech-01
        09:00 work_stopped tech-01
        09:02 handover_briefed tech-01 others=tech-02
        09:05 lock_applied tech-02 source=engine_start lock=L-2
        09:06 lock_removed tech-01 source=engine_start lock=L-1
        09:10 work_started tech-02
        09:40 work_stopped tech-02

        """;

    private static readonly SafetyCase Two = new()
    {
        People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Assists)],
        Locks =
        [
            new(new("J-1"), null),
            new(new("J-2"), null),
            new(new("L-1"), new("tech-01")),
            new(new("L-2"), new("tech-02")),
        ],
        Procedure = SafetyCase.RideOn,
    };

    public static TheoryData<EnergyDuty> OfGroups =>
        [
            EnergyDuty.OwnDeviceInGroup,
            EnergyDuty.PrimaryNamed,
            EnergyDuty.GroupAccounted,
            EnergyDuty.OwnDeviceThroughWork,
        ];

    [Theory]
    [MemberData(nameof(OfGroups))]
    public void Group_EverythingInItsTurn_IsMet(EnergyDuty of) =>
        Assert.Equal(Verdict.Met, Two.With(Group).VerdictOf(of));

    [Theory]
    [InlineData("08:19 lock_applied tech-02", "08:22 lock_applied tech-02", EnergyDuty.OwnDeviceInGroup)]
    [InlineData("09:01 lock_removed tech-02", "08:40 lock_removed tech-02", EnergyDuty.OwnDeviceInGroup)]
    [InlineData(
        "08:18 lock_applied tech-01 source=group_box lock=L-1",
        "08:18 gloves_worn tech-01",
        EnergyDuty.OwnDeviceInGroup
    )]
    [InlineData("source=group_box lock=L-2", "source=group_box lock=L-1", EnergyDuty.OwnDeviceInGroup)]
    [InlineData("07:50 primary", "08:30 primary", EnergyDuty.PrimaryNamed)]
    [InlineData(
        "09:35 exposure",
        "09:34 tag_removed tech-01 source=gravity lock=G-1\n09:35 exposure",
        EnergyDuty.GroupAccounted
    )]
    [InlineData("09:35 exposure", "09:41:30 exposure", EnergyDuty.GroupAccounted)]
    [InlineData("09:35 exposure", "09:20 exposure", EnergyDuty.GroupAccounted)]
    [InlineData("exposure_checked tech-01", "exposure_checked tech-02", EnergyDuty.GroupAccounted)]
    [InlineData("others=tech-01,tech-02", "others=tech-01", EnergyDuty.GroupAccounted)]
    [InlineData("others=tech-01,tech-02", "others=lead-01", EnergyDuty.GroupAccounted)]
    public void Group_OneStepOutOfItsTurn_IsNotMet(string was, string now, EnergyDuty of) =>
        Assert.Equal(Verdict.NotMet, Changed(Group, was, now).VerdictOf(of));

    /// <summary>Whoever is in charge and counts need not name themselves.</summary>
    [Theory]
    [InlineData(" others=tech-01,tech-02")]
    [InlineData(" others=tech-02")]
    [InlineData("")]
    public void Group_WhoeverCountsCountsThemselves(string others) =>
        Assert.Equal(
            Verdict.Met,
            Changed(Group, " others=tech-01,tech-02", others).VerdictOf(EnergyDuty.GroupAccounted)
        );

    [Fact]
    public void Group_LockOnAndOffInTheMinutesOfTheWork_IsOnInTime() =>
        Assert.Equal(
            Verdict.Met,
            Two.With(
                    Group
                        .Replace(
                            "08:19 lock_applied tech-02",
                            "08:21 lock_applied tech-02",
                            StringComparison.Ordinal
                        )
                        .Replace(
                            "09:01 lock_removed tech-02",
                            "09:00 lock_removed tech-02",
                            StringComparison.Ordinal
                        )
                )
                .VerdictOf(EnergyDuty.OwnDeviceInGroup)
        );

    [Fact]
    public void PrimaryNamed_ForFewerThanAreAtWork_IsNotProven() =>
        Assert.Equal(
            Verdict.Unproven,
            (
                Two with
                {
                    Entries =
                    [
                        .. Two.With(Group)
                            .Entries.Select(entry =>
                                entry.Kind == Domain.Timeline.TimelineEventKind.PrimaryAssigned
                                    ? entry with
                                    {
                                        Count = 1,
                                    }
                                    : entry
                            ),
                    ],
                }
            )
                .Duty(EnergyDuty.PrimaryNamed)
                .Verdict
        );

    [Theory]
    [InlineData("shop", "shop", Employer.Site, Verdict.NotApplicable)]
    [InlineData("shop", "grounds", Employer.Site, Verdict.NotMet)]
    [InlineData(null, null, Employer.Outside, Verdict.NotMet)]
    public void CoordinatorNamed_NobodyNamed_IsAskedOnlyOfSeveralCrews(
        string? one,
        string? other,
        Employer employer,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (
                Two with
                {
                    Register =
                    [
                        new(new("tech-01"), true, null, null) { Crew = one },
                        new(new("tech-02"), true, null, null) { Crew = other, Employer = employer },
                    ],
                }
            )
                .With(Group)
                .VerdictOf(EnergyDuty.CoordinatorNamed)
        );

    [Theory]
    [InlineData("07:40 contractor_procedures_exchanged lead-01 others=tech-02\n", Verdict.Met)]
    [InlineData("07:40 contractor_procedures_exchanged lead-01 others=ext-09\n", Verdict.NotMet)]
    [InlineData("08:30 contractor_procedures_exchanged lead-01 others=tech-02\n", Verdict.NotMet)]
    [InlineData("", Verdict.NotMet)]
    public void ContractorsInformed_ByWhenAndOfWhom(string exchanged, Verdict expected) =>
        Assert.Equal(
            expected,
            (
                Two with
                {
                    Register = [Ours, new(new("tech-02"), true, null, null) { Employer = Employer.Outside }],
                }
            )
                .With(exchanged + Group)
                .VerdictOf(EnergyDuty.ContractorsInformed)
        );

    [Theory]
    [InlineData("", Verdict.Unproven)]
    [InlineData("08:30 contractor_procedures_exchanged lead-01 others=tech-02\n", Verdict.Unproven)]
    [InlineData("07:40 contractor_procedures_exchanged lead-01 others=tech-02\n", Verdict.Met)]
    public void ContractorsInformed_OfSomebodyWhomTheRegisterDoesNotHave_IsUnprovenUnlessExchanged(
        string exchanged,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (Two with { Register = [Ours] }).With(exchanged + Group).VerdictOf(EnergyDuty.ContractorsInformed)
        );

    [Fact]
    public void ContractorsInformed_SomebodyUnknownOnlyHangsALock_TellsThatNothingShowsWhomTheyWorkFor() =>
        Assert.Equal(
            "The register of people does not have ext-09: who they work for is not shown, and the record does not show procedures exchanged with the outside employer before a lock put on at 08:25 by ext-09.",
            (Two with { Register = [Ours, new(new("tech-02"), true, null, null)] })
                .With(Group + "08:25 lock_applied ext-09 source=engine_start lock=X-1")
                .Duty(EnergyDuty.ContractorsInformed)
                .Statement
        );

    [Fact]
    public void ContractorsInformed_EverybodyOfTheSite_DoesNotApply() =>
        Assert.Equal(
            Verdict.NotApplicable,
            (Two with { Register = [Ours, new(new("tech-02"), true, null, null)] })
                .With(Group)
                .VerdictOf(EnergyDuty.ContractorsInformed)
        );

    [Fact]
    public void ContractorsInformed_SomebodyFromOutsideHangsALockThatHangsAlready_IsAskedOfThemToo() =>
        Assert.Equal(
            Verdict.NotMet,
            (Two with { Register = [new(new("op-01"), false, null, null) { Employer = Employer.Outside }] })
                .With(Group + "08:25 lock_applied op-01 source=engine_start lock=J-1")
                .VerdictOf(EnergyDuty.ContractorsInformed)
        );

    /// <summary>The valve, on which no lock ever hung, is not said to have been under one.</summary>
    [Fact]
    public void Handover_BriefedWithLocksOverlapping_IsMetForWhatWasHeld()
    {
        var outcome = Two.With(Handover).Duty(EnergyDuty.HandoverContinuous);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "a lock or tag on the isolator of engine start all the while",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("handover_briefed tech-01", Verdict.Met)]
    [InlineData("handover_briefed lead-01 others=tech-01,tech-02", Verdict.Met)]
    [InlineData("handover_briefed tech-01 others=tech-02,tech-01", Verdict.Met)]
    [InlineData("handover_briefed tech-02", Verdict.Unproven)]
    [InlineData("handover_briefed tech-02 others=tech-01", Verdict.Unproven)]
    [InlineData("handover_briefed tech-02 others=tech-01,tech-02", Verdict.Unproven)]
    [InlineData("handover_briefed tech-02 others=tech-03", Verdict.NotMet)]
    [InlineData(
        "handover_briefed tech-02 others=tech-01\n09:03 handover_briefed tech-01 others=tech-02",
        Verdict.Met
    )]
    public void Handover_BetweenTheTwo_ByOneWhoWorkedOrByAThird(string briefed, Verdict expected) =>
        Assert.Equal(
            expected,
            Changed(Handover, "handover_briefed tech-01 others=tech-02", briefed)
                .VerdictOf(EnergyDuty.HandoverContinuous)
        );

    [Theory]
    [InlineData("09:02 handover_briefed", "09:12 handover_briefed")]
    [InlineData("others=tech-02", "others=tech-03")]
    [InlineData("09:06 lock_removed", "09:04 lock_removed")]
    [InlineData("09:02 handover_briefed tech-01 others=tech-02", "09:02 handover_briefed lead-01")]
    [InlineData("09:02 handover_briefed tech-01", "09:02 handover_briefed lead-01")]
    public void Handover_LateOrToAnotherOrWithAGap_IsNotMet(string was, string now) =>
        Assert.Equal(Verdict.NotMet, Changed(Handover, was, now).VerdictOf(EnergyDuty.HandoverContinuous));

    /// <summary>Two come in together: each is briefed by one who had worked, or by one who was briefed and is in.</summary>
    [Theory]
    [InlineData("others=tech-02", Verdict.NotMet)]
    [InlineData("others=tech-02,tech-03", Verdict.Met)]
    [InlineData("others=tech-02\n09:12 handover_briefed tech-02 others=tech-03", Verdict.Met)]
    [InlineData("others=tech-02\n09:12 handover_briefed tech-04 others=tech-03", Verdict.NotMet)]
    [InlineData("", Verdict.Unproven)]
    public void Handover_SeveralComeIn_EachIsBriefed(string others, Verdict expected)
    {
        var outcome = Changed(
                Handover + "\n09:15 work_started tech-03\n09:20 work_stopped tech-03",
                "others=tech-02",
                others
            )
            .Duty(EnergyDuty.HandoverContinuous);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.NotMet,
            outcome.Statement.Contains("taken over by tech-03", StringComparison.Ordinal)
                && !outcome.Statement.Contains("names nobody", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Handover_TestRunInBetween_IsToldByOtherDuties() =>
        Assert.Equal(
            Verdict.NotApplicable,
            Changed(
                    Handover,
                    "09:02 handover_briefed tech-01 others=tech-02",
                    "09:01 test_energised tech-01\n09:02 test_ended tech-01"
                )
                .VerdictOf(EnergyDuty.HandoverContinuous)
        );

    [Fact]
    public void Handover_SamePersonGoesOn_IsNone() =>
        Assert.Equal(
            Verdict.NotApplicable,
            Two.With(Handover.Replace("tech-02", "tech-01", StringComparison.Ordinal))
                .VerdictOf(EnergyDuty.HandoverContinuous)
        );

    [Fact]
    public void OwnDeviceThroughWork_LoneWorkerTakesTheLockOffAndHangsItAgain_SaysFromWhenUntilWhen()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Seat
                    + MakeSafe.Isolation
                    + MakeSafe.Work
                    + "08:40 lock_removed tech-01 source=engine_start lock=L-11\n"
                    + "08:55 lock_applied tech-01 source=engine_start lock=L-11\n"
                    + MakeSafe.After
            )
            .Duty(EnergyDuty.OwnDeviceThroughWork);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("at 08:40 it no longer shows", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("until 08:55", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void OwnDeviceThroughWork_LockOfAnotherOnly_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            new SafetyCase()
                .With(
                    (MakeSafe.Isolation + MakeSafe.Work).Replace(
                        "lock_applied tech-01",
                        "lock_applied lead-01",
                        StringComparison.Ordinal
                    )
                )
                .VerdictOf(EnergyDuty.OwnDeviceThroughWork)
        );

    [Fact]
    public void OwnDeviceThroughWork_LockOffOnAJobThatGoesOn_MayMeanTheWorkStopped() =>
        Assert.Equal(
            FindingReason.InProgress,
            (
                new SafetyCase().With(
                    MakeSafe.Isolation
                        + "08:20 work_started tech-01\n08:40 lock_removed tech-01 source=engine_start lock=L-11"
                ) with
                {
                    IsSignedOff = false,
                }
            )
                .Duty(EnergyDuty.OwnDeviceThroughWork)
                .Reason
        );

    [Theory]
    [InlineData("08:21 work_started tech-02\n", Verdict.Unproven)]
    [InlineData("09:00 work_stopped tech-02\n", Verdict.Unproven)]
    public void OwnDevice_StartOrEndOfWorkNotEntered_IsUnproven(string left, Verdict verdict)
    {
        var job = Changed(Group, left, "");

        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.OwnDeviceInGroup));
        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.OwnDeviceThroughWork));
    }

    [Fact]
    public void OwnDeviceThroughWork_LockOffBeforeAnEndWithoutAStart_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Two.With(
                    Group
                        .Replace("08:21 work_started tech-02\n", "", StringComparison.Ordinal)
                        .Replace(
                            "09:01 lock_removed tech-02",
                            "08:40 lock_removed tech-02",
                            StringComparison.Ordinal
                        )
                )
                .VerdictOf(EnergyDuty.OwnDeviceThroughWork)
        );

    private static SafetyCase Changed(string timeline, string was, string now)
    {
        Assert.Contains(was, timeline, StringComparison.Ordinal);
        return Two.With(timeline.Replace(was, now, StringComparison.Ordinal));
    }
}
