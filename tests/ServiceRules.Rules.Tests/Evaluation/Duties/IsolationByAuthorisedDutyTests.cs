using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Who isolates, releases, verifies and puts into service again, with or without hands in.</summary>
public sealed class IsolationByAuthorisedDutyTests
{
    private const string Whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    [Fact]
    public void Judge_EverythingByWhoeverWorks_IsMet() =>
        Assert.Equal(Verdict.Met, Judge(Registers.InOrder).Verdict);

    [Theory]
    [InlineData("08:06 isolator_operated tech-01", "the isolator turned off at 08:06")]
    [InlineData("08:12 stored_energy_released tech-01", "the stored energy released at 08:12")]
    [InlineData("09:53 machine_started tech-01", "the machine started at 09:53")]
    public void Judge_AStepByTheUserOfTheMachine_IsNotMetAndNamesIt(string step, string told)
    {
        var outcome = Judge(By(step, "op-01"));

        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            $"The record shows {told} by op-01, whom the register does not show as authorised.",
            outcome.Statement
        );
        Assert.Single(outcome.Evidence);
    }

    [Fact]
    public void Judge_SeveralStepsOfOnePerson_AreToldOnce()
    {
        var outcome = Judge(
            Registers.InOrder.With(
                Whole
                    .Replace("isolator_operated tech-01", "isolator_operated op-01", StringComparison.Ordinal)
                    .Replace("released tech-01", "released op-01", StringComparison.Ordinal)
            )
        );

        Assert.Equal(
            "The record shows the isolator turned off at 08:06 and the stored energy released at 08:12 by op-01, whom the register does not show as authorised.",
            outcome.Statement
        );
        Assert.Empty(outcome.Notices);
        Assert.Equal(4, outcome.Evidence.Length);
    }

    [Theory]
    [InlineData("09:59 isolator_operated op-01 source=engine_start position=on")]
    [InlineData("10:05 machine_started op-01")]
    public void Judge_TheUserOnceItIsHandedBack_IsNoMatterOfThis(string step) =>
        Assert.Equal(Verdict.Met, Judge(Registers.InOrder.With(Whole + "\n" + step)).Verdict);

    [Fact]
    public void Judge_HandedBackInTheMiddle_TheUserSwitchingOnIsNotMet() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(
                Registers.InOrder.With(
                    Whole
                        + "\n10:00 isolator_operated op-01 source=engine_start position=on\n10:10 work_started tech-01\n10:20 work_stopped tech-01"
                )
            ).Verdict
        );

    [Theory]
    [InlineData(JobRole.Affected, Verdict.NotMet)]
    [InlineData(JobRole.Leads, Verdict.Met)]
    public void Judge_VerifiedByATrainedPersonWithoutHandsIn_AsksForAPartInTheWork(
        JobRole role,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                By("08:17 isolation_verified tech-01", "lead-01") with
                {
                    Recorded = record =>
                        record with
                        {
                            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("lead-01", role)],
                        },
                }
            ).Verdict
        );

    /// <summary>A colleague who takes part in nothing but handing it back.</summary>
    [Fact]
    public void Judge_StartedToHandItBackByATrainedColleague_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                By("09:53 machine_started tech-01", "lead-01") with
                {
                    Recorded = record =>
                        record with
                        {
                            People =
                            [
                                SafetyCase.Person("tech-01"),
                                SafetyCase.Person("lead-01", JobRole.Affected),
                            ],
                        },
                }
            ).Verdict
        );

    [Fact]
    public void Judge_SomebodyWhomTheRegisterDoesNotHave_IsUnproven() =>
        Assert.Equal(
            (Verdict.Unproven, FindingReason.NotRegistered),
            Judge(By("08:14 stored_energy_released tech-01", "guest-01")) is var outcome
                ? (outcome.Verdict, outcome.Reason)
                : default
        );

    [Theory]
    [InlineData(0, Verdict.Met)]
    [InlineData(-1, Verdict.NotMet)]
    public void Judge_TrainingHoldsThroughItsLastDay(int until, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                By("08:14 stored_energy_released tech-01", "lead-01")
                    .Knowing("lead-01", person => person with { TrainedUntil = Registers.Day.AddDays(until) })
            ).Verdict
        );

    [Fact]
    public void Judge_HandsInAndNotAuthorised_IsLeftToTheDutyOfWork() =>
        Assert.Equal(
            Verdict.NotApplicable,
            Judge(Registers.InOrder.Knowing("tech-01", person => person with { Authorised = false })).Verdict
        );

    [Theory]
    [InlineData(null, Verdict.NotMet)]
    [InlineData("op-01", Verdict.Met)]
    public void Judge_ALockTakenOffByTheUser_IsOfThisWhereItIsTheGroups(string? owner, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                By("09:47 lock_removed tech-01", "op-01") with
                {
                    Locks = [Registers.Red("L-11", owner), Registers.Red("L-12", "tech-01")],
                }
            ).Verdict
        );

    private static SafetyCase By(string step, string person)
    {
        Assert.Contains(step, Whole, StringComparison.Ordinal);
        return Registers.InOrder.With(
            Whole.Replace(
                step,
                step.Replace("tech-01", person, StringComparison.Ordinal),
                StringComparison.Ordinal
            )
        );
    }

    private static CheckOutcome Judge(SafetyCase job) => job.Judge(EnergyDuty.IsolationByAuthorised);
}
