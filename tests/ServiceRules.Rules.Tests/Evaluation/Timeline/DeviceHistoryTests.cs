using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Locks that go on and off as no lock can, and starts of a machine that is held off.</summary>
public sealed class DeviceHistoryTests
{
    private const string Run = """
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:50 test_energised tech-01
        09:58 test_ended tech-01
        10:06 isolator_operated tech-01 source=engine_start
        10:08 lock_applied tech-01 source=engine_start lock=L-11 position=off
        10:17 isolation_verified tech-01 source=all
        10:20 work_started tech-01
        10:40 work_stopped tech-01

        """;

    private const string OffForTheRun = "09:47 lock_removed tech-01 source=engine_start lock=L-11\n";

    [Theory]
    [InlineData(CredibilityOf.DeviceHistory)]
    [InlineData(CredibilityOf.StartedHeldOff)]
    public void Evaluate_LocksInTurn_IsMet(CredibilityOf of)
    {
        Assert.Equal(Verdict.Met, Judge(MakeSafe.Complete, of).Verdict);
        Assert.Equal(
            Verdict.Met,
            Judge(new SafetyCase().With(MakeSafe.Isolation + MakeSafe.Work + Run), of).Verdict
        );
    }

    [Fact]
    public void Evaluate_LockPutOnAgainAfterWorkAndNeverShownOff_IsDoubtedAndNamesBothEntries()
    {
        var outcome = Judge(
            new SafetyCase().With(
                "08:08 lock_applied tech-01 source=engine_start lock=L-11\n"
                    + MakeSafe.Work
                    + "09:50 lock_applied tech-01 source=engine_start lock=L-11"
            ),
            CredibilityOf.DeviceHistory
        );

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "L-11 was put on at 08:08 by tech-01 and is put on again at 09:50, and no entry between takes it off: it was off at some time that the record does not show.",
            outcome.Statement
        );
        Assert.Equal<IEnumerable<string>>(["/timeline/0", "/timeline/3"], outcome.Evidence);
    }

    /// <summary>The reference merges a repeat by the same person silently, whatever its event id.</summary>
    [Fact]
    public void Evaluate_LockEnteredTwiceBeforeWork_IsARepeat() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(
                    "08:08 lock_applied tech-01 source=engine_start lock=L-11\n08:10 lock_applied tech-01 source=engine_start lock=L-11\n"
                        + MakeSafe.Work
                ),
                CredibilityOf.DeviceHistory
            ).Verdict
        );

    [Theory]
    [InlineData(
        MakeSafe.Work + "09:47 lock_removed tech-01 source=engine_start lock=L-11",
        "no entry puts it on"
    )]
    [InlineData(
        "08:08 lock_applied tech-01 source=engine_start lock=L-11\n08:15 lock_removed tech-01 source=engine_start lock=L-11\n"
            + MakeSafe.Work
            + "09:47 lock_removed tech-01 source=engine_start lock=L-11",
        "was off since 08:15 already"
    )]
    public void Evaluate_TakenOffWithoutHavingBeenOn_IsDoubted(string timeline, string told)
    {
        var outcome = Judge(new SafetyCase().With(timeline), CredibilityOf.DeviceHistory);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_HandedBackWithALockOn_IsDoubted()
    {
        var outcome = Judge(
            new SafetyCase().With(
                "08:08 lock_applied tech-01 source=engine_start lock=L-11\n"
                    + MakeSafe.Work
                    + "09:58 handed_back tech-01"
            ),
            CredibilityOf.DeviceHistory
        );

        Assert.Equal(
            "L-11 was put on at 08:08 by tech-01 and no entry takes it off, though the machine was handed back at 09:58.",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_JobLeftLockedAndNotHandedBack_IsNoDoubt() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                new SafetyCase().With(MakeSafe.Isolation + MakeSafe.Work),
                CredibilityOf.DeviceHistory
            ).Verdict
        );

    [Theory]
    [InlineData(OffForTheRun, "", Verdict.Unproven)]
    [InlineData("09:48", "09:48", Verdict.Met)]
    public void Evaluate_TestRunWithTheEngineLockedOut_IsDoubtedAndWithTheValveLockedNot(
        string was,
        string now,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                new SafetyCase().With(
                    MakeSafe.Isolation + MakeSafe.Work + Run.Replace(was, now, StringComparison.Ordinal)
                ),
                CredibilityOf.StartedHeldOff
            ).Verdict
        );

    [Fact]
    public void Evaluate_StartedAfterTheJobWithTheValveStillLocked_IsDoubtedAndNamesBothEntries()
    {
        var outcome = Judge(
            new SafetyCase().With(
                "08:09 lock_applied tech-01 source=hydraulic lock=L-12\n"
                    + MakeSafe.Work
                    + "09:53 machine_started op-01"
            ),
            CredibilityOf.StartedHeldOff
        );

        Assert.Equal(
            "The machine started at 09:53 by op-01 is entered while L-12, put on hydraulic at 08:09 by tech-01, was not off: one of the two was not so.",
            outcome.Statement
        );
        Assert.Equal<IEnumerable<string>>(["/timeline/0", "/timeline/3"], outcome.Evidence);
    }

    [Theory]
    [InlineData("", Verdict.Unproven)]
    [InlineData("09:52 isolator_operated tech-01 source=engine_start position=on\n", Verdict.Met)]
    public void Evaluate_StartedWithTheIsolatorOff_IsDoubted(string between, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                new SafetyCase().With(
                    "08:06 isolator_operated tech-01 source=engine_start\n"
                        + MakeSafe.Work
                        + between
                        + "09:53 machine_started op-01"
                ),
                CredibilityOf.StartedHeldOff
            ).Verdict
        );

    /// <summary>What rests on a lock that must have been off at some time is not proven by it.</summary>
    [Fact]
    public void Evaluate_WorkUnderALockThatWasOffAtSomeTime_IsNotProven()
    {
        var work = MakeSafe.Isolation + MakeSafe.Work;
        var again = new SafetyCase().With(
            work
                + "09:50 lock_applied tech-01 source=engine_start lock=L-11\n10:00 work_started tech-01\n10:10 work_stopped tech-01"
        );

        Assert.Equal(Verdict.Met, new SafetyCase().With(work).Judge(new Check.Protection()).Verdict);
        Assert.Equal(FindingReason.NotCredible, again.Judge(new Check.Protection()).Reason);
    }

    /// <summary>The key of a job lock lies in the group box: with anybody's lock on the box the job lock cannot come off.</summary>
    [Theory]
    [InlineData("09:45 lock_removed tech-02 source=group_box lock=L-51", Verdict.Met)]
    [InlineData("09:47 lock_removed tech-02 source=group_box lock=L-51", Verdict.Met)]
    [InlineData("09:50 lock_removed tech-02 source=group_box lock=L-51", Verdict.Unproven)]
    [InlineData("", Verdict.Unproven)]
    public void Evaluate_JobLockOffWithAnOwnLockOnTheBox_IsDoubted(string off, Verdict expected)
    {
        var job = new SafetyCase { Locks = [new(new("J-01"), null), new(new("L-51"), new("tech-02"))] }.With(
            "08:06 lock_applied tech-01 source=engine_start lock=J-01\n"
                + "08:07 lock_applied tech-02 source=group_box lock=L-51\n"
                + "09:47 lock_removed tech-01 source=engine_start lock=J-01\n"
                + off
        );

        var outcome = Judge(job, CredibilityOf.DeviceHistory);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.Contains("hangs on the group box", StringComparison.Ordinal)
        );
    }

    private static CheckOutcome Judge(SafetyCase job, CredibilityOf of) =>
        job.Judge(new Check.Credibility(of));
}
