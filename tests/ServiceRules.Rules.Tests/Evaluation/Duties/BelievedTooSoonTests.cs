using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What an entry claims at a time at which it cannot have been so, or no longer is.</summary>
public sealed class BelievedTooSoonTests
{
    private static readonly SafetyCase Told = new()
    {
        People = [SafetyCase.Person("tech-01"), SafetyCase.Person("op-01", JobRole.Affected)],
        Register = [new(new("tech-01"), true, null, null)],
    };

    private const string Whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    // Started after the shutdown, with the locks on, and verified before it ended.
    [Theory]
    [InlineData("08:15 test_energised tech-01\n08:18 test_ended tech-01\n", Verdict.NotMet)]
    [InlineData("08:15 test_energised tech-01\n08:17 test_ended tech-01\n", Verdict.Met)]
    [InlineData("08:15 test_energised tech-01\n08:16 test_ended tech-01\n", Verdict.Met)]
    public void Verified_WhileTheMachineRan_ProvesNothing(string run, Verdict expected)
    {
        var outcome = Told.With(run + Whole).Duty(EnergyDuty.IsolationVerified);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.NotMet,
            outcome.Statement.Contains("while the machine ran", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("10:05 affected_notified_before tech-01 others=op-01\n", Verdict.Met)]
    [InlineData("10:12 affected_notified_before tech-01 others=op-01\n", Verdict.NotMet)]
    [InlineData("10:05 affected_notified_before tech-01 others=op-02\n", Verdict.NotMet)]
    public void AffectedTold_LockedAgainAfterHandingBack_AsksForANoticeAnew(
        string notice,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Told.With(
                    Whole
                        + "\n"
                        + notice
                        + "10:10 lock_applied tech-01 source=engine_start lock=L-11 position=off"
                )
                .VerdictOf(EnergyDuty.AffectedTold)
        );

    [Fact]
    public void AffectedTold_LockedAgain_IsToldBetweenWhichTwo()
    {
        var outcome = Told.With(
                Whole + "\n10:10 lock_applied tech-01 source=engine_start lock=L-11 position=off"
            )
            .Duty(EnergyDuty.AffectedTold);

        Assert.Equal(
            "The record does not show the people affected told beforehand between the machine handed back at 09:58 and a lock put on again at 10:10.",
            outcome.Statement
        );
    }

    [Theory]
    [InlineData("09:00 reel_wedged tech-02", Verdict.NotMet)]
    [InlineData("09:00 guards_refitted tech-02", Verdict.NotMet)]
    [InlineData("09:41 guards_refitted tech-02", Verdict.NotApplicable)]
    [InlineData("09:00 guards_refitted tech-01", Verdict.NotApplicable)]
    [InlineData("09:00 guards_refitted tech-02\n08:10 primary_assigned tech-01", Verdict.Met)]
    public void InCharge_StepByHandBesideAnothersWork_IsAGroup(string entries, Verdict expected) =>
        Assert.Equal(expected, Told.With(Whole + "\n" + entries).VerdictOf(EnergyDuty.PrimaryNamed));

    [Fact]
    public void Hands_SaidToStayOutAndAPropEntered_IsAQuestion()
    {
        var outcome = (Told with { Recorded = record => record with { HandsInBladeZone = false } })
            .With(Whole + "\n08:10 reel_wedged tech-01")
            .Duty(EnergyDuty.MinorServicingClaim);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData(new[] { "shop", "ext" }, Verdict.Met)]
    [InlineData(new[] { "shop" }, Verdict.Unproven)]
    [InlineData(new string[0], Verdict.Met)]
    public void Coordinator_OfCrewsThatAreNamed_IsOfNoOther(string[] crews, Verdict expected)
    {
        var two = Told with
        {
            Register =
            [
                new(new("tech-01"), true, null, null) { Crew = "shop" },
                new(new("tech-02"), true, null, null) { Crew = "ext" },
            ],
        };
        var job = two.With(Whole + "\n09:00 guards_refitted tech-02\n08:10 coordinator_assigned tech-01");

        Assert.Equal(
            expected,
            (
                job with
                {
                    Entries =
                    [
                        .. job.Entries.Select(entry =>
                            entry.Kind == TimelineEventKind.CoordinatorAssigned
                                ? entry with
                                {
                                    Crews = [.. crews],
                                }
                                : entry
                        ),
                    ],
                }
            ).VerdictOf(EnergyDuty.CoordinatorNamed)
        );
    }
}
