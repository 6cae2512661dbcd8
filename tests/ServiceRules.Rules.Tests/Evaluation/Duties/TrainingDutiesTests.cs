using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class TrainingDutiesTests
{
    [Theory]
    [InlineData(EnergyDuty.TrainedInEnergies)]
    [InlineData(EnergyDuty.AffectedInstructed)]
    [InlineData(EnergyDuty.TrainingCertified)]
    [InlineData(EnergyDuty.TrainingThroughWork)]
    [InlineData(EnergyDuty.WorkByAuthorised)]
    [InlineData(EnergyDuty.OnlyAuthorisedHang)]
    public void Judge_RegistersInOrder_IsMet(EnergyDuty duty) =>
        Assert.Equal(Verdict.Met, InOrder.Verdict(duty));

    [Fact]
    public void Judge_TrainingDoesNotCoverASource_NamesIt()
    {
        var outcome = InOrder
            .Knowing("tech-01", person => person with { Covers = [new("engine_start"), new("gravity")] })
            .Judge(EnergyDuty.TrainedInEnergies);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("hydraulic pressure", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_SourceThatOnlyTheMachineRegisterHas_MustBeCoveredToo() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .OfMachineWith([.. SafetyCase.RideOn.Sources, SafetyCase.Source("spark", "ignition")])
                .Verdict(EnergyDuty.TrainedInEnergies)
        );

    [Theory]
    [InlineData("09:41 source_added op-01 source=groomer", Verdict.Met)]
    [InlineData("09:30 source_added op-01 source=groomer", Verdict.NotMet)]
    [InlineData("08:05 source_added op-01 source=groomer", Verdict.NotMet)]
    [InlineData(
        "09:41 source_added op-01 source=groomer\n09:42 lock_applied tech-01 source=groomer lock=L-13",
        Verdict.NotMet
    )]
    [InlineData(
        "09:41 source_added op-01 source=groomer\n10:00 work_started op-01\n10:05 work_stopped op-01",
        Verdict.Met
    )]
    [InlineData(
        "09:41 source_added op-01 source=groomer\n10:00 work_started tech-01\n10:05 work_stopped tech-01",
        Verdict.NotMet
    )]
    public void Judge_SourceThatCameLater_IsNotHeldAgainstWhoHungALockBeforeAndWorkedNoMore(
        string lines,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            lines
                .Split('\n')
                .Aggregate(InOrder, (job, line) => job.And(line))
                .Verdict(EnergyDuty.TrainedInEnergies)
        );

    [Fact]
    public void Judge_NoTrainingOfWhoHungALock_IsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .Knowing("tech-01", person => person with { TrainedOn = null })
                .Verdict(EnergyDuty.TrainedInEnergies)
        );

    [Fact]
    public void Judge_TrainedOnTheSecondDay_WasNotTrainedWhenTheLockWasHung() =>
        Assert.Equal(
            Verdict.NotMet,
            InOrder
                .And("2026-04-14T00:20:00+01:00 area_inspected tech-01")
                .Knowing("tech-01", person => person with { TrainedOn = Day.AddDays(1) })
                .Verdict(EnergyDuty.TrainedInEnergies)
        );

    [Fact]
    public void Judge_NothingHung_AsksForNoTraining() =>
        Assert.Equal(
            Verdict.NotApplicable,
            InOrder
                .Without(Domain.Timeline.TimelineEventKind.LockApplied)
                .Verdict(EnergyDuty.TrainedInEnergies)
        );

    [Fact]
    public void Judge_NotAuthorisedAndNothingHung_IsNotMetAllTheSame()
    {
        var job = InOrder
            .Without(Domain.Timeline.TimelineEventKind.LockApplied)
            .Knowing("tech-01", person => person with { Authorised = false });

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WorkByAuthorised));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.OnlyAuthorisedHang));
    }

    [Theory]
    [InlineData(0, Verdict.Met, Verdict.Met)]
    [InlineData(-1, Verdict.NotMet, Verdict.NotMet)]
    public void Judge_TrainingThatRanOut_BarsFromWorkTheDayAfter(int until, Verdict work, Verdict programme)
    {
        var job = InOrder.Knowing("tech-01", person => person with { TrainedUntil = Day.AddDays(until) });

        Assert.Equal(work, job.Verdict(EnergyDuty.WorkByAuthorised));
        Assert.Equal(programme, job.Verdict(EnergyDuty.TrainingThroughWork));
    }

    [Fact]
    public void Judge_TrainingThatRanOutDuringTheJob_IsOfTheProgramme()
    {
        var night = InOrder
            .And("2026-04-14T00:20:00+01:00 area_inspected tech-01")
            .Knowing("tech-01", person => person with { TrainedUntil = Day });

        Assert.Equal(Verdict.Met, night.Verdict(EnergyDuty.WorkByAuthorised));
        Assert.Equal(Verdict.NotMet, night.Verdict(EnergyDuty.TrainingThroughWork));
    }

    [Fact]
    public void Judge_DatedBackBeforeTheTrainingRanOut_TheTimesCount() =>
        Assert.Equal(
            Verdict.NotMet,
            (
                InOrder.Knowing("tech-01", person => person with { TrainedUntil = Day.AddDays(-5) }) with
                {
                    Date = Day.AddDays(-10),
                }
            ).Verdict(EnergyDuty.WorkByAuthorised)
        );

    [Theory]
    [InlineData(-1, Verdict.NotMet)]
    [InlineData(0, Verdict.Met)]
    public void Judge_ControlsChanged_TrainedOnThatDayOrLater(int trained, Verdict expected)
    {
        var job = InOrder with { Procedure = InOrder.Procedure! with { ControlStepsChanged = true } };

        Assert.Equal(
            expected,
            job.Knowing("tech-01", person => person with { TrainedOn = Day.AddDays(-90 + trained) })
                .Verdict(EnergyDuty.RetrainedOnChange)
        );
        Assert.Equal(Verdict.NotApplicable, InOrder.Verdict(EnergyDuty.RetrainedOnChange));
    }

    [Theory]
    [InlineData(-50, Verdict.NotMet)]
    [InlineData(-49, Verdict.Met)]
    [InlineData(1, Verdict.NotMet)]
    public void Judge_FindingAboutWhoWorks_TrainedAfterItAndBeforeTheJob(int trained, Verdict expected) =>
        Assert.Equal(
            expected,
            InOrder
                .Certified(one =>
                    one with
                    {
                        Findings = [new("F-1", new("tech-01"), one.On, null, one.On.AddDays(3))],
                    }
                )
                .Knowing("tech-01", person => person with { TrainedOn = Day.AddDays(trained) })
                .Verdict(EnergyDuty.RetrainedAfterFinding)
        );

    [Fact]
    public void Judge_AffectedWithoutADay_IsNeitherInstructedNorCertified()
    {
        var job = InOrder.Knowing("op-01", person => person with { InstructedOn = null });

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.AffectedInstructed));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.TrainingCertified));
    }

    [Fact]
    public void Judge_AffectedWhoIsTrained_NeedsNoInstruction()
    {
        var job = InOrder.Knowing("op-01", _ => Trained("op-01"));

        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.AffectedInstructed));
    }

    [Theory]
    [InlineData(null, Verdict.NotMet)]
    [InlineData(1, Verdict.NotMet)]
    [InlineData(0, Verdict.Met)]
    public void Judge_TagHung_ItsLimitsWereTaughtBefore(int? taught, Verdict expected) =>
        Assert.Equal(
            expected,
            InOrder
                .And("08:08 tag_applied tech-01 source=gravity lock=T-1")
                .Knowing(
                    "tech-01",
                    person => person with { TagLimitsOn = taught is { } days ? Day.AddDays(days) : null }
                )
                .Verdict(EnergyDuty.TrainedInTags)
        );
}
