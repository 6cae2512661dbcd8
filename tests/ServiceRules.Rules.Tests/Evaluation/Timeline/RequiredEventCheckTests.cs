using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class RequiredEventCheckTests
{
    private static readonly Check Brake = FoundationChecks.Before(
        TimelineEventKind.ParkingBrakeSet,
        MachineNeed.ParkingBrake
    );

    private static readonly Check Guards = FoundationChecks.After(TimelineEventKind.GuardsRefitted);

    private static readonly Check CutOuts = FoundationChecks.After(TimelineEventKind.CutOutsProved);

    private static readonly Check Gloves = new Check.RequiredEvent(
        [TimelineEventKind.GlovesWorn],
        RequiredPer.Person,
        RequiredWhen.BeforeWork,
        null
    );

    [Fact]
    public void Evaluate_StepBeforeWork_IsMetAndNamesWhoWhenAndWhere()
    {
        var outcome = MakeSafe.Complete.Judge(Brake);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "The record shows the parking brake set at 08:02 by tech-01, before work started at 08:20.",
            outcome.Statement
        );
        Assert.Equal("/timeline/4", Assert.Single(outcome.Evidence));
    }

    [Fact]
    public void Evaluate_StepMissingOnClosedJob_IsNotShown()
    {
        var outcome = MakeSafe.Complete.Without(TimelineEventKind.ParkingBrakeSet).Judge(Brake);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "The record does not show the parking brake set before work started at 08:20.",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_StepAfterWorkBegan_IsWrongOrder()
    {
        var outcome = new SafetyCase().With(MakeSafe.Work + "08:25 parking_brake_set tech-01").Judge(Brake);

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_FinishedJobThatShowsNoWork_ShowsTheStepThoughTheMachineRanAfterIt()
    {
        var outcome = new SafetyCase().With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.After).Judge(Brake);

        Assert.Equal(
            (Verdict.Unproven, "The record shows the parking brake set, but not when hands-on work started."),
            (outcome.Verdict, outcome.Statement)
        );
    }

    [Fact]
    public void Evaluate_SameMinute_TheOrderOfEntryDecides()
    {
        var before = new SafetyCase().With("08:20 parking_brake_set tech-01\n" + MakeSafe.Work);
        var after = new SafetyCase().With(MakeSafe.Work + "08:20 parking_brake_set tech-01");

        Assert.Equal(Verdict.Met, before.Judge(Brake).Verdict);
        Assert.Equal(Verdict.NotMet, after.Judge(Brake).Verdict);
    }

    [Fact]
    public void Evaluate_MachineWithoutTheControl_DoesNotApply()
    {
        var pedestrian = MakeSafe.Complete with
        {
            Procedure = SafetyCase.RideOn with { Controls = new(false, false, false, true) },
        };

        Assert.Equal(Verdict.NotApplicable, pedestrian.Judge(Brake).Verdict);
    }

    [Fact]
    public void Evaluate_NoProcedure_IsNotRegistered()
    {
        var outcome = (MakeSafe.Complete with { Procedure = null }).Judge(Brake);

        Assert.Equal((Verdict.Unproven, FindingReason.NotRegistered), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_OpenJobBeforeWork_IsNotYet()
    {
        var outcome = (new SafetyCase() with { IsSignedOff = false })
            .With("08:03 machine_shut_down tech-01")
            .Judge(Brake);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
        Assert.Contains("before touching the unit", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OpenJobWithHandsIn_MissingStepIsABreachAlready()
    {
        var outcome = (new SafetyCase() with { IsSignedOff = false })
            .With("08:20 work_started tech-01")
            .Judge(Brake);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_ClosedJobWithoutWork_IsNeverSilentlyMet()
    {
        var outcome = new SafetyCase().With(MakeSafe.Seat).Judge(Brake);

        Assert.Equal((Verdict.Unproven, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_MachineRanSince_StepMustBeRepeated()
    {
        var moved = new SafetyCase().With(
            "07:50 parking_brake_set tech-01\n07:55 machine_started tech-01\n07:58 machine_shut_down tech-01\n"
                + MakeSafe.Work
        );

        Assert.Equal(Verdict.NotMet, moved.Judge(Brake).Verdict);
    }

    [Fact]
    public void Evaluate_EachPerson_NamesTheOneWithout()
    {
        var two = new SafetyCase()
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Assists)],
        }.With("08:19 gloves_worn tech-01\n08:20 work_started tech-01\n08:21 work_started tech-02");

        var outcome = two.Judge(Gloves);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            "The record does not show gloves worn by tech-02 before tech-02 started work at 08:21.",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_StepAfterWork_IsMet() =>
        Assert.Equal(Verdict.Met, MakeSafe.Complete.Judge(Guards).Verdict);

    [Fact]
    public void Evaluate_GuardsBackAfterTheStart_IsWrongOrder()
    {
        var outcome = MakeSafe
            .Complete.With(MakeSafe.Work + "09:50 machine_started tech-01\n09:55 guards_refitted tech-01")
            .Judge(Guards);

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>What stops an engine is shown only by an engine that it stops.</summary>
    [Theory]
    [InlineData("09:47 machine_started tech-01\n09:50 cut_outs_proved tech-01\n", Verdict.Met)]
    [InlineData("09:50 cut_outs_proved tech-01\n09:53 machine_started tech-01\n", Verdict.Unproven)]
    [InlineData("09:50 cut_outs_proved tech-01\n", Verdict.Unproven)]
    [InlineData(
        "09:46 machine_started tech-01\n09:48 isolator_operated tech-01 source=engine_start\n09:50 cut_outs_proved tech-01\n",
        Verdict.Unproven
    )]
    [InlineData(
        "09:46 cut_outs_proved tech-01\n09:47 machine_started tech-01\n09:50 cut_outs_proved tech-01\n",
        Verdict.Met
    )]
    public void Evaluate_CutOutsProvedOnADeadMachine_IsUnproven(string after, Verdict verdict) =>
        Assert.Equal(
            verdict,
            new SafetyCase().With(MakeSafe.Work + after + "09:58 handed_back tech-01").Judge(CutOuts).Verdict
        );

    [Fact]
    public void Evaluate_CutOutsProvedWithTheMachineRunning_IsMetUntilItIsHandedBack()
    {
        const string started = "09:50 machine_started tech-01\n";
        var before = new SafetyCase().With(
            MakeSafe.Work + started + "09:55 cut_outs_proved tech-01\n09:58 handed_back tech-01"
        );
        var after = new SafetyCase().With(
            MakeSafe.Work + started + "09:55 handed_back tech-01\n09:58 cut_outs_proved tech-01"
        );

        Assert.Equal(Verdict.Met, before.Judge(CutOuts).Verdict);
        Assert.Equal(FindingReason.WrongOrder, after.Judge(CutOuts).Reason);
    }

    [Fact]
    public void Evaluate_GuardsBackBeforeTheLastWork_DoesNotCount()
    {
        var outcome = new SafetyCase()
            .With("08:20 work_started tech-01\n09:00 guards_refitted tech-01\n09:40 work_stopped tech-01")
            .Judge(Guards);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_OpenJobStillAtWork_AfterWorkStepsAreNotYet()
    {
        var open = new SafetyCase() with { IsSignedOff = false };
        var outcome = open.With("08:20 work_started tech-01").Judge(Guards);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>Driven in, or lapped first: no work was done that guards could be put back after.</summary>
    [Theory]
    [InlineData("07:20 machine_started tech-01", Verdict.Unproven)]
    [InlineData("07:20 machine_started tech-01\n07:30 machine_shut_down tech-01", Verdict.Unproven)]
    [InlineData("07:20 machine_started tech-01\n07:40 handed_back tech-01", Verdict.NotMet)]
    [InlineData("07:10 work_stopped tech-01\n07:20 machine_started tech-01", Verdict.NotMet)]
    [InlineData(
        "07:00 work_started tech-01\n07:10 work_stopped tech-01\n07:20 machine_started tech-01",
        Verdict.NotMet
    )]
    public void Evaluate_OpenJobWithTheMachineStartedBeforeAnyWork_AfterWorkStepsAreNotYet(
        string timeline,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (new SafetyCase() with { IsSignedOff = false }).With(timeline).Judge(Guards).Verdict
        );

    [Fact]
    public void Evaluate_OpenJobHandedBackWithoutTheStep_IsABreach()
    {
        var open = new SafetyCase() with { IsSignedOff = false };

        Assert.Equal(
            Verdict.NotMet,
            open.With(MakeSafe.Work + "09:58 handed_back tech-01").Judge(Guards).Verdict
        );
    }

    [Fact]
    public void Evaluate_LabelledLateEntry_IsMetAndTold()
    {
        var outcome = new SafetyCase()
            .With("08:02 parking_brake_set tech-01 mark=late-entry\n" + MakeSafe.Work)
            .Judge(Brake);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains("weaker evidence", Assert.Single(outcome.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_BackFilledEntryAlone_IsUnproven()
    {
        const string late = "08:02 parking_brake_set tech-01 received=2026-04-13T16:40:00+01:00\n";

        var alone = new SafetyCase().With(late + MakeSafe.Work).Judge(Brake);
        var besideAnother = new SafetyCase()
            .With(late + "08:03 parking_brake_set tech-01\n" + MakeSafe.Work)
            .Judge(Brake);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (alone.Verdict, alone.Reason));
        Assert.Equal(Verdict.Met, besideAnother.Verdict);
    }

    [Fact]
    public void Evaluate_BackFilledAfterWorkBegan_StaysABreach()
    {
        var outcome = new SafetyCase()
            .With(MakeSafe.Work + "08:25 parking_brake_set tech-01 received=2026-04-13T16:40:00+01:00")
            .Judge(Brake);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_NobodyElseAffected_DoesNotApply() =>
        Assert.Equal(
            Verdict.NotApplicable,
            MakeSafe.Complete.Judge(FoundationChecks.ByName["told-before"]).Verdict
        );

    [Fact]
    public void Evaluate_OpenJobWithOnePersonStillToCome_SpeaksOnlyOfTheOneAtWork()
    {
        var two = new SafetyCase
        {
            IsSignedOff = false,
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Assists)],
        }.With("08:19 gloves_worn tech-01\n08:20 work_started tech-01");

        var outcome = two.Judge(Gloves);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "The record shows gloves worn by tech-01, before work started at 08:20.",
            outcome.Statement
        );
    }
}
