using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Two jobs at one machine, each under own locks: tech-01 has hands in from 08:20 to 09:40, and tech-05 in another record.</summary>
public sealed class JobsAtOnceTests
{
    private const string Hands = "08:30 work_started tech-05\n09:00 work_stopped tech-05\n";

    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("08:25 coordinator_assigned lead-01", Verdict.Met)]
    [InlineData("08:35 coordinator_assigned lead-01", Verdict.NotMet)]
    [InlineData("08:25 coordinator_assigned op-01", Verdict.NotMet)]
    [InlineData("08:25 coordinator_assigned lead-09", Verdict.Unproven)]
    [InlineData("08:25 primary_assigned lead-01", Verdict.NotMet)]
    public void Judge_OtherHandsAtTheSameTime_AsksForOneOverBoth(string named, Verdict expected) =>
        Assert.Equal(expected, Judge(Hands + named).Verdict);

    [Theory]
    [InlineData("lead-01", Verdict.Met)]
    [InlineData("lead-02", Verdict.NotMet)]
    public void Judge_InChargeInEach_IsOverBothWhereItIsTheSame(string there, Verdict expected)
    {
        var job = MakeSafe.Complete.With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + "08:19 primary_assigned lead-01\n"
                + MakeSafe.Work
                + MakeSafe.After
        );

        Assert.Equal(expected, Judge(Hands + $"08:25 primary_assigned {there}", job).Verdict);
    }

    [Theory]
    [InlineData("lead-01", Verdict.Met)]
    [InlineData("lead-02", Verdict.NotMet)]
    public void Judge_EachNamesACoordinator_IsOverBothWhereItIsTheSame(string there, Verdict expected)
    {
        var job = MakeSafe.Complete.With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + "08:19 coordinator_assigned lead-01\n"
                + MakeSafe.Work
                + MakeSafe.After
        );

        Assert.Equal(expected, Judge(Hands + $"08:25 coordinator_assigned {there}", job).Verdict);
    }

    [Theory]
    [InlineData("09:43 work_started tech-05\n09:50 work_stopped tech-05")]
    [InlineData("08:10 work_started tech-05\n08:20 work_stopped tech-05")]
    [InlineData("08:30 work_started tech-01\n09:00 work_stopped tech-01")]
    [InlineData("08:30 parking_brake_set tech-05")]
    public void Judge_NotTogetherOrTheSamePerson_DoesNotApply(string entries) =>
        Assert.Equal(Verdict.NotApplicable, Judge(entries).Verdict);

    /// <summary>Guards go back at 09:42: whoever has hands in by then has them in with those of tech-01.</summary>
    [Theory]
    [InlineData("09:41", Verdict.NotMet)]
    [InlineData("09:42", Verdict.Unproven)]
    public void Judge_StepByHandBesideOtherHands_AsksForOneOverBoth(string start, Verdict expected) =>
        Assert.Equal(expected, Judge($"{start} work_started tech-05\n09:50 work_stopped tech-05").Verdict);

    /// <summary>Hands known at one moment alone may have been in just before or after those that come or go in that minute.</summary>
    [Theory]
    [InlineData("09:00 blockage_cleared_by_hand tech-05", Verdict.NotMet)]
    [InlineData("09:40 blockage_cleared_by_hand tech-05", Verdict.Unproven)]
    [InlineData("08:20 blockage_cleared_by_hand tech-05", Verdict.Unproven)]
    [InlineData("09:41 blockage_cleared_by_hand tech-05", Verdict.NotApplicable)]
    [InlineData(
        "08:20 blockage_cleared_by_hand tech-05\n09:00 blockage_cleared_by_hand tech-05",
        Verdict.NotMet
    )]
    public void Judge_OtherHandsAtOneMoment_AreTogetherWithinTheStretch(string entries, Verdict expected) =>
        Assert.Equal(expected, Judge(entries).Verdict);

    /// <summary>Two crews in this job and a second job beside it: both want somebody over them, and both are told.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Judge_NeitherCrewsNorJobsHaveOneOverThem_TellsBoth(bool isForTheCrews)
    {
        var named = isForTheCrews ? "08:19 coordinator_assigned op-01\n" : string.Empty;
        var job = MakeSafe.Complete.With(
            MakeSafe.Seat
                + MakeSafe.Isolation
                + named
                + MakeSafe.Work
                + "08:21 work_started tech-02\n09:00 work_stopped tech-02\n"
                + MakeSafe.After
        );

        var outcome = Judge(
            Hands,
            job,
            more:
            [
                new(new("tech-01"), true, null, null) { Crew = "shop" },
                new(new("tech-02"), true, null, null) { Crew = "grounds" },
            ]
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            isForTheCrews ? "op-01" : "several people at work",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(outcome.Notices, notice => notice.Contains("record J-2", StringComparison.Ordinal));
        Assert.True(outcome.Evidence.Length > 1);
    }

    /// <summary>Each two people of both jobs are told once, whoever comes first.</summary>
    [Fact]
    public void Judge_SeveralPeopleOfTheOther_TellsEachOfThem()
    {
        var outcome = Judge(
            Hands
                + "08:40 work_started tech-06\n09:10 work_stopped tech-06\n09:20 work_started tech-06\n09:30 work_stopped tech-06"
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "record J-2 tech-05 from 08:30 to 09:00",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "record J-2 tech-06 from 08:40 to 09:10",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    /// <summary>One over both named once the first two were in is too late for them, and in time for who came after.</summary>
    [Fact]
    public void Judge_NamedBetweenTheFirstAndTheSecondOfTheOther_TellsTheFirstAlone()
    {
        var outcome = Judge(
            Hands
                + "08:35 coordinator_assigned lead-01\n08:40 work_started tech-06\n09:10 work_stopped tech-06"
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("tech-05", outcome.Statement, StringComparison.Ordinal);
        Assert.Empty(outcome.Notices);
    }

    /// <summary>Surely in together with one in time, and with another perhaps, before anybody was named: that one is told.</summary>
    [Fact]
    public void Judge_InTogetherWithOneAndPerhapsWithAnother_TellsTheOther()
    {
        var outcome = Judge(
            "08:20 blockage_cleared_by_hand tech-06\n08:25 coordinator_assigned lead-01\n" + Hands
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("tech-06", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_OpenJobAndSeveralOfTheOtherIn_TellsEachBeforeHandsGoIn()
    {
        var job = (MakeSafe.Complete with { IsSignedOff = false }).With(MakeSafe.Seat);

        var outcome = Judge(
            "07:30 work_started tech-05\n07:40 work_started tech-06",
            job,
            isSignedOff: false
        );

        Assert.Equal(
            ["tech-05", "tech-06"],
            outcome.StillToDo.Select(step => step.Split("which shows ")[1].Split(' ')[0])
        );
    }

    [Fact]
    public void Judge_OtherAtTheBench_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, Judge(Hands, place: WorkPlace.OnBench).Verdict);

    /// <summary>It is asked before hands go in, while it can still be done.</summary>
    [Fact]
    public void Judge_OpenJobAndTheOthersHandsIn_IsToldBeforeHandsGoIn()
    {
        var job = (MakeSafe.Complete with { IsSignedOff = false }).With(MakeSafe.Seat);

        var outcome = Judge("07:30 work_started tech-05", job, isSignedOff: false);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Not yet shown: one person over this job and that of record J-2, which shows tech-05 with hands in from 07:30 on, with no end entered. Do it before touching the unit.",
            outcome.Statement
        );
    }

    private static CheckOutcome Judge(
        string entries,
        SafetyCase? job = null,
        WorkPlace place = WorkPlace.OnMachine,
        bool isSignedOff = true,
        ImmutableArray<RegisteredPerson>? more = null
    )
    {
        var timeline = new SafetyCase().With(entries).Entries;
        var other = new OtherRecord(
            new("J-2"),
            new("M-1"),
            isSignedOff
                ? new(new("tech-05"), RecordedTime.Parse("2026-04-13T18:00:00+01:00").OrThrow())
                : null,
            timeline
        )
        {
            Place = place,
        };
        return (
            (job ?? MakeSafe.Complete) with
            {
                Register =
                [
                    new(new("lead-01"), true, null, null),
                    new(new("lead-02"), true, null, null),
                    new(new("op-01"), false, null, null),
                    .. more ?? [],
                ],
                Registered = context => context with { OtherRecords = [other] },
            }
        ).Duty(EnergyDuty.CoordinatorNamed);
    }
}
