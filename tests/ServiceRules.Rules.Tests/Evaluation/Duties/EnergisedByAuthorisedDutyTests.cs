using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Who runs the machine while a job goes on.</summary>
public sealed class EnergisedByAuthorisedDutyTests
{
    private const string Run = """
        09:50 test_energised tech-01
        09:58 test_ended tech-01

        """;

    private static readonly SafetyCase Job = Registers.InOrder.With(MakeSafe.Isolation + MakeSafe.Work + Run);

    [Fact]
    public void Judge_RunBySomebodyAuthorised_IsMet() => Assert.Equal(Verdict.Met, Judge(Job).Verdict);

    [Fact]
    public void Judge_RunByTheUserOfTheMachine_IsNotMetAndNamesThem()
    {
        var outcome = Judge(By("op-01"));

        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "The record shows the machine energised for a test at 09:50 by op-01, whom the register does not show as authorised.",
            outcome.Statement
        );
        Assert.Equal("/timeline/9", Assert.Single(outcome.Evidence));
    }

    /// <summary>Trained, and in this job only one of those who are kept clear of it.</summary>
    [Fact]
    public void Judge_RunBySomebodyWhomTheRecordHasAsAffected_IsNotMet()
    {
        var job = Job with
        {
            Recorded = record =>
                record with
                {
                    People = [SafetyCase.Person("tech-02"), SafetyCase.Person("tech-01", JobRole.Affected)],
                },
            Entries =
            [
                .. Job.Entries.Where(entry =>
                    entry.Kind is not (TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped)
                ),
            ],
        };

        var outcome = Judge(job);

        Assert.Equal((Verdict.NotMet, FindingReason.WrongPerson), (outcome.Verdict, outcome.Reason));
        Assert.Contains("affected by the work", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_RunBySomebodyWhomTheRegisterDoesNotHave_IsNotRegistered() =>
        Assert.Equal(FindingReason.NotRegistered, Judge(By("guest-01")).Reason);

    [Theory]
    [InlineData(-60, -1, Verdict.NotMet)]
    [InlineData(-60, 0, Verdict.Met)]
    [InlineData(1, 300, Verdict.NotMet)]
    [InlineData(0, 300, Verdict.Met)]
    public void Judge_TrainingHoldsThroughItsDays(int from, int until, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Job.Knowing(
                    "tech-01",
                    person =>
                        person with
                        {
                            TrainedOn = Registers.Day.AddDays(from),
                            TrainedUntil = Registers.Day.AddDays(until),
                        }
                )
            ).Verdict
        );

    [Theory]
    [InlineData("10:10 work_started tech-01\n10:20 work_stopped tech-01\n", Verdict.NotMet)]
    [InlineData("", Verdict.NotApplicable)]
    public void Judge_StartByTheUser_CountsOnlyWhereHandsGoInAgain(string after, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Registers.InOrder.With(
                    MakeSafe.Isolation
                        + MakeSafe.Work
                        + "09:50 machine_started op-01\n09:58 machine_shut_down op-01\n"
                        + after
                )
            ).Verdict
        );

    [Theory]
    [InlineData("tech-01", "tech-01", Verdict.Met)]
    [InlineData("tech-01", "op-01", Verdict.NotMet)]
    [InlineData("op-01", "tech-01", Verdict.NotMet)]
    public void Judge_TaskOnTheRunningReel_AsksOfWhoStartsAndOfWhoDoesIt(
        string starts,
        string does,
        Verdict expected
    ) => Assert.Equal(expected, Judge(Lapping(starts, does, [])).Verdict);

    [Theory]
    [InlineData("op-01", "op-01", Verdict.Met)]
    [InlineData("tech-01", "op-01", Verdict.NotMet)]
    public void Judge_ProcedureThatNamesWhoMayRunTheTask_AsksForOneOfThose(
        string starts,
        string named,
        Verdict expected
    ) => Assert.Equal(expected, Judge(Lapping(starts, starts, [new Id<Participant>(named)])).Verdict);

    private static SafetyCase By(string person) =>
        Job.With(
            MakeSafe.Isolation
                + MakeSafe.Work
                + Run.Replace("energised tech-01", $"energised {person}", StringComparison.Ordinal)
        );

    private static SafetyCase Lapping(
        string starts,
        string does,
        ImmutableArray<Id<Participant>> operators
    ) =>
        Registers.InOrder.With(
            MakeSafe.Isolation
                + MakeSafe.Work
                + $"09:50 test_energised {starts}\n09:52 energised_task_performed {does}\n09:58 test_ended tech-01"
        ) with
        {
            Recorded = record => record with { Tasks = [ServiceTask.Lap] },
            Procedure = Registers.InOrder.Procedure! with
            {
                EnergisedTasks =
                [
                    new(ServiceTask.Lap, new Id<Participant>("lead-01"), [], "all locked", null, null)
                    {
                        Operators = operators,
                    },
                ],
            },
        };

    private static CheckOutcome Judge(SafetyCase job) => job.Duty(EnergyDuty.EnergisedByAuthorised);
}
