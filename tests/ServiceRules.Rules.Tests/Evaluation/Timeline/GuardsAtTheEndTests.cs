using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Guards that went back before the work was entered as stopped.</summary>
public sealed class GuardsAtTheEndTests
{
    private const string Started = "08:20 work_started tech-01\n";

    private const string Refitted = Started + "09:36 guards_refitted tech-01\n";

    private const string Released = "09:40 work_stopped tech-01\n09:53 machine_started tech-01";

    private static readonly Check Guards = FoundationChecks.After(TimelineEventKind.GuardsRefitted);

    [Fact]
    public void AsTheLastAct_AreBack()
    {
        var outcome = new SafetyCase().With(Refitted + Released).Judge(Guards);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "The record shows the guards back in place at 09:36 by tech-01, as the last act of the work.",
            outcome.Statement
        );
        Assert.Equal("/timeline/1", Assert.Single(outcome.Evidence));
    }

    // What is told or looked at after it takes no guard off.
    [Theory]
    [InlineData("09:38 removal_notified tech-01 others=op-01\n")]
    [InlineData("09:38 stored_energy_rechecked tech-01 source=hydraulic\n")]
    [InlineData("09:37 guards_refitted tech-01\n")]
    public void WithWhatIsNoWorkAfterThem_AreBack(string after) =>
        Assert.Equal(Verdict.Met, new SafetyCase().With(Refitted + after + Released).Judge(Guards).Verdict);

    [Theory]
    [InlineData("09:38 reel_wedged tech-01\n", "the reel wedged at 09:38 by tech-01")]
    [InlineData("09:38 unit_supported tech-02\n", "the unit supported at 09:38 by tech-02")]
    [InlineData(
        "09:38 test_energised tech-01\n09:39 test_ended tech-01\n",
        "the machine energised for a test at 09:38 by tech-01"
    )]
    [InlineData("09:30 work_started tech-02\n09:39 work_stopped tech-02\n", "tech-02 at work until 09:39")]
    [InlineData("09:39 work_stopped tech-02\n", "work stopped at 09:39 by tech-02")]
    public void WithWorkAfterThem_AreNotShownBack_AndAreNamed(string after, string since)
    {
        var outcome = new SafetyCase().With(Refitted + after + Released).Judge(Guards);

        Assert.Equal((Verdict.NotMet, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "The record does not show the guards back in place between the work and the machine started at 09:53. "
                + $"It shows the guards back in place at 09:36 by tech-01, and after that {since}.",
            outcome.Statement
        );
        Assert.Contains("/timeline/1", outcome.Evidence);
    }

    [Theory]
    // Somebody else's guards; a stop that does not follow soon; guards of an earlier stretch of work.
    [InlineData(Started + "09:36 guards_refitted tech-02\n" + Released, true)]
    [InlineData(Started + "09:34 guards_refitted tech-01\n" + Released, true)]
    [InlineData(Refitted + "09:37 work_stopped tech-01\n09:38 work_started tech-01\n" + Released, false)]
    [InlineData("09:36 guards_refitted tech-01\n" + Released, false)]
    public void OfAnotherOrEarlier_AreNotShownBack(string timeline, bool isNamed)
    {
        var outcome = new SafetyCase().With(timeline).Judge(Guards);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            isNamed,
            outcome.Statement.Contains("after that tech-01 at work until 09:40", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void FiveMinutesBeforeTheStop_AreStillItsLastAct() =>
        Assert.Equal(
            Verdict.Met,
            new SafetyCase()
                .With(Started + "09:35 guards_refitted tech-01\n" + Released)
                .Judge(Guards)
                .Verdict
        );

    // By the bench log: before it; in its minute, which tells nothing; after it.
    [Theory]
    [InlineData("09:35", Verdict.Met)]
    [InlineData("09:36", Verdict.Unproven)]
    [InlineData("09:39", Verdict.NotMet)]
    public void WithHandsAtAUnitByTheBenchLog_AreHeldAgainstThem(string at, Verdict verdict)
    {
        var job = new SafetyCase().With(Refitted + Released) with
        {
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = new("sheet"),
                    Entries =
                    [
                        new PartFitted
                        {
                            Part = default,
                            At = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow(),
                        },
                    ],
                },
            ],
        };

        var outcome = job.Judge(Guards);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            verdict != Verdict.Met,
            outcome.Statement.Contains($"a part fitted on U-1 at {at}", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void ThatTheirOwnWordsDeny_ProveNothing()
    {
        var job = new SafetyCase().With(Refitted + Released);
        var denied = job.Entries[1] with { Method = "left shield missing, ordered" };

        Assert.Equal(
            Verdict.Unproven,
            (job with { Entries = job.Entries.SetItem(1, denied) }).Judge(Guards).Verdict
        );
    }

    [Fact]
    public void OfAJobStillOpen_AreNotAskedAgain() =>
        Assert.Equal(
            Verdict.Met,
            (new SafetyCase() with { IsSignedOff = false })
                .With(Refitted + "09:40 work_stopped tech-01")
                .Judge(Guards)
                .Verdict
        );

    [Fact]
    public void InWorkThatWentOn_OfAJobStillOpen_AreAskedAfterIt()
    {
        var outcome = (new SafetyCase() with { IsSignedOff = false })
            .With(Refitted + "09:37 reel_wedged tech-01\n09:40 work_stopped tech-01")
            .Judge(Guards);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }
}
