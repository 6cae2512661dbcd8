using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Steps claimed twice, times to come, and locks and people in two places at once.</summary>
public sealed class TwoPlacesTests
{
    private const string Lock = "08:08 lock_applied tech-01 source=engine_start lock=L-11";

    [Fact]
    public void Evaluate_CompleteTimeline_IsMetInEveryWay() =>
        Assert.All(
            [
                CredibilityOf.FutureStamps,
                CredibilityOf.ConflictingDuplicates,
                CredibilityOf.LockInTwoPlaces,
                CredibilityOf.PersonElsewhere,
            ],
            kind => Assert.Equal(Verdict.Met, Judge(MakeSafe.Complete, kind).Verdict)
        );

    /// <summary>A clock may be some minutes ahead; more than five is a time to come.</summary>
    [Theory]
    [InlineData("08:12", Verdict.Met)]
    [InlineData("08:11:59", Verdict.Unproven)]
    public void Evaluate_ReceivedBeforeItsTime_IsDoubtedBeyondFiveMinutes(
        string received,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                new SafetyCase().With($"08:17 isolation_verified tech-01 source=all received={received}"),
                CredibilityOf.FutureStamps
            ).Verdict
        );

    [Theory]
    [InlineData("08:06 isolator_operated tech-02 source=engine_start", Verdict.Unproven)]
    [InlineData("08:06 isolator_operated tech-01 source=engine_start", Verdict.Met)]
    [InlineData("08:06 isolator_operated tech-02 source=hydraulic", Verdict.Met)]
    [InlineData("08:06 isolation_verified tech-02 source=engine_start", Verdict.Met)]
    public void Evaluate_StepOfTwoPeople_IsDoubtedWhereItIsMadeOnce(string second, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                new SafetyCase().With(
                    $"""
                    08:05 isolator_operated tech-01 source=engine_start
                    08:05 isolation_verified tech-01 source=engine_start
                    {second}
                    """
                ),
                CredibilityOf.ConflictingDuplicates
            ).Verdict
        );

    [Theory]
    [InlineData("08:07 isolator_operated tech-01 source=engine_start position=on")]
    [InlineData("08:07 machine_started tech-01")]
    [InlineData("08:07 lock_removed tech-01 source=engine_start lock=L-11")]
    public void Evaluate_UndoneBetween_MayBeMadeAgainByAnother(string undone) =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(
                    $"""
                    08:05 isolator_operated tech-01 source=engine_start
                    {undone}
                    08:09 isolator_operated tech-02 source=engine_start
                    """
                ),
                CredibilityOf.ConflictingDuplicates
            ).Verdict
        );

    [Fact]
    public void Evaluate_OneLockPutOnByTwo_IsDoubtedAndTheFirstStands()
    {
        var outcome = Judge(
            new SafetyCase().With($"{Lock}\n08:09 lock_applied tech-02 source=engine_start lock=L-11"),
            CredibilityOf.ConflictingDuplicates
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Equal("/timeline/1", Assert.Single(outcome.Evidence));
    }

    [Theory]
    [InlineData("M-2", "07:00", "08:08", Verdict.Met)]
    [InlineData("M-2", "07:00", "08:09", Verdict.Unproven)]
    [InlineData("M-2", "09:47", "10:00", Verdict.Met)]
    [InlineData("M-2", "09:46", "10:00", Verdict.Unproven)]
    [InlineData("M-2", "07:00", null, Verdict.Unproven)]
    [InlineData("M-1", "07:00", null, Verdict.Met)]
    public void Evaluate_LockElsewhere_IsDoubtedWhileBothHang(
        string machine,
        string from,
        string? until,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                MakeSafe.Complete with
                {
                    Registered = context =>
                        context with
                        {
                            Elsewhere =
                            [
                                new LockElsewhere(
                                    new("L-11"),
                                    new(machine),
                                    At(from),
                                    until is null ? null : At(until)
                                ),
                            ],
                        },
                },
                CredibilityOf.LockInTwoPlaces
            ).Verdict
        );

    /// <summary>
    /// Left hanging here, and another record shows it put on elsewhere later: one doubt that takes nothing away from what it held.
    /// </summary>
    [Fact]
    public void Evaluate_LockLeftHere_IsDoubtedOnceAndWeakensNothing()
    {
        var left = MakeSafe.Complete.Without(TimelineEventKind.LockRemoved) with
        {
            Registered = context =>
                context with
                {
                    Elsewhere =
                    [
                        new LockElsewhere(new("L-11"), new("M-2"), At("11:00"), null) { Record = new("J-9") },
                    ],
                },
        };

        var outcome = Judge(left, CredibilityOf.LockInTwoPlaces);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("record J-9 shows it put on M-2", outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(Verdict.Met, left.Judge(new Check.Protection()).Verdict);
    }

    /// <summary>Hands in here from 08:20 to 09:40. Between two entries counts as well: the work goes on there.</summary>
    [Theory]
    [InlineData("08:30", "08:45", Verdict.Unproven)]
    [InlineData("06:00", "08:06", Verdict.Met)]
    [InlineData("06:00", "08:07", Verdict.Unproven)]
    public void Evaluate_PersonWithHandsInAnotherMachine_IsDoubted(
        string from,
        string until,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                MakeSafe.Complete with
                {
                    Registered = context =>
                        context with
                        {
                            Elsewhere =
                            [
                                new PersonElsewhere(new("tech-01"), new("M-2"), At(from), At(until)),
                            ],
                        },
                },
                CredibilityOf.PersonElsewhere
            ).Verdict
        );

    [Theory]
    [InlineData("08:01", Verdict.Met)]
    [InlineData("08:02", Verdict.Unproven)]
    public void Evaluate_NotYetOnTheSite_IsDoubted(string came, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                MakeSafe.Complete with
                {
                    Registered = context =>
                        context with
                        {
                            Attendance = [new(new("tech-01"), At(came), At("16:00"))],
                        },
                },
                CredibilityOf.PersonElsewhere
            ).Verdict
        );

    /// <summary>A lock that hung elsewhere proves no protection here.</summary>
    [Fact]
    public void Evaluate_LockElsewhere_ItsEntryIsWeakened()
    {
        var job = MakeSafe.Complete with
        {
            Registered = context =>
                context with
                {
                    Elsewhere = [new LockElsewhere(new("L-11"), new("M-2"), At("07:00"), null)],
                },
        };

        Assert.Equal(Verdict.Unproven, job.Judge(FoundationChecks.Locked).Verdict);
    }

    private static CheckOutcome Judge(SafetyCase job, CredibilityOf kind) =>
        job.Judge(new Check.Credibility(kind));

    private static RecordedTime At(string clock) =>
        RecordedTime.Parse($"2026-04-13T{clock}:00+01:00").OrThrow();
}
