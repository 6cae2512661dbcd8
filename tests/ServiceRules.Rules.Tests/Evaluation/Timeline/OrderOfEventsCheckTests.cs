using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class OrderOfEventsCheckTests
{
    private static readonly Check MakeSafeOrder = FoundationChecks.ByName["order"];

    private static readonly Check AfterWork = new Check.OrderOfEvents([
        TimelineEventKind.AreaInspected,
        TimelineEventKind.PeopleClearChecked,
        TimelineEventKind.LockRemoved,
        TimelineEventKind.MachineStarted,
    ]);

    [Fact]
    public void Evaluate_VerifiedBeforeTheReleaseOfOneSource_NamesTheSource()
    {
        var outcome = new SafetyCase()
            .With(
                """
                08:12 stored_energy_released tech-01 source=hydraulic
                08:17 isolation_verified tech-01 source=all
                08:18 stored_energy_released tech-01 source=gravity

                """ + MakeSafe.Work
            )
            .Judge(MakeSafeOrder);

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "The record shows the isolation verified at 08:17, before the stored energy released at 08:18 (raised unit).",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_VerifiedAgainAfterTheRelease_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(
                    """
                    08:17 isolation_verified tech-01 source=all
                    08:18 stored_energy_released tech-01 source=gravity
                    08:19 isolation_verified tech-01 source=all

                    """ + MakeSafe.Work
                )
                .Judge(MakeSafeOrder)
                .Verdict
        );

    [Fact]
    public void Evaluate_ReleasedOnceMoreAfterTheVerificationReliedOn_IsWrongOrder() =>
        Assert.Equal(
            FindingReason.WrongOrder,
            new SafetyCase()
                .With(
                    MakeSafe.Isolation
                        + "08:18 stored_energy_released tech-01 source=hydraulic\n"
                        + MakeSafe.Work
                )
                .Judge(MakeSafeOrder)
                .Reason
        );

    [Fact]
    public void Evaluate_PersonalLockAddedAfterVerification_DoesNotResetTheOrder() =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(
                    MakeSafe.Isolation
                        + MakeSafe.Work
                        + "08:19 lock_applied tech-02 source=hydraulic lock=L-21"
                )
                .Judge(MakeSafeOrder)
                .Verdict
        );

    [Fact]
    public void Evaluate_PressureReleasedAgainDuringWork_IsNoBreach() =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(
                    MakeSafe.Isolation
                        + MakeSafe.Work
                        + "09:00 stored_energy_released tech-01 source=hydraulic"
                )
                .Judge(MakeSafeOrder)
                .Verdict
        );

    [Fact]
    public void Evaluate_SecondCycleAfterATestOutOfOrder_IsFound()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Isolation
                    + MakeSafe.Work
                    + """
                    09:45 test_energised tech-01
                    09:50 test_ended tech-01
                    09:52 isolation_verified tech-01 source=all
                    09:53 stored_energy_released tech-01 source=hydraulic
                    09:55 work_started tech-01
                    10:00 work_stopped tech-01
                    """
            )
            .Judge(MakeSafeOrder);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_OpenJobOutOfOrderBeforeWork_CanStillBeMended()
    {
        var outcome = (new SafetyCase() with { IsSignedOff = false })
            .With(
                "08:17 isolation_verified tech-01 source=all\n08:18 stored_energy_released tech-01 source=gravity"
            )
            .Judge(MakeSafeOrder);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_WorkInTheOrder_EarlierWorkIsFound()
    {
        var order = new Check.OrderOfEvents([
            TimelineEventKind.IsolationVerified,
            TimelineEventKind.WorkStarted,
        ]);

        Assert.Equal(
            FindingReason.WrongOrder,
            new SafetyCase()
                .With(MakeSafe.Work + "08:30 isolation_verified tech-01 source=all")
                .Judge(order)
                .Reason
        );
        Assert.Equal(Verdict.Met, MakeSafe.Complete.Judge(order).Verdict);
    }

    [Fact]
    public void Evaluate_LocksOffBeforePeopleSeenClear_IsWrongOrder()
    {
        Assert.Equal(Verdict.Met, MakeSafe.Complete.Judge(AfterWork).Verdict);

        var early = MakeSafe
            .Complete.Without(TimelineEventKind.PeopleClearChecked)
            .Entries.Add(TimelineLine.Read("09:51 people_clear_checked tech-01", new(2026, 4, 13)));
        Assert.Equal(
            FindingReason.WrongOrder,
            (MakeSafe.Complete with { Entries = early }).Judge(AfterWork).Reason
        );
    }

    [Fact]
    public void Evaluate_NoneOfTheSteps_IsNeverSilentlyMet() =>
        Assert.Equal(
            (Verdict.Unproven, FindingReason.StepMissing),
            (
                new SafetyCase().With(MakeSafe.Work).Judge(MakeSafeOrder).Verdict,
                new SafetyCase().With(MakeSafe.Work).Judge(MakeSafeOrder).Reason
            )
        );
}
