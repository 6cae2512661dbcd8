using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Whoever takes up work again has hands in, unless they are only back as the owner of a device that came off.</summary>
public sealed class ResumedWorkTests
{
    private const string CutOff = """
        09:40 absence_confirmed lead-01 others=tech-01
        09:41 contact_attempted lead-01 others=tech-01
        09:47 lock_removed lead-01 source=engine_start lock=L-11 exception=P-90
        09:48 lock_removed lead-01 source=hydraulic lock=L-12 exception=P-90
        17:00 owner_informed lead-01 others=tech-01

        """;

    [Theory]
    // Nobody's lock: hands go in by the word.
    [InlineData("08:19 resumed_work tech-02", "tech-02 08:19-")]
    [InlineData("08:30 resumed_work tech-02\n09:00 work_stopped tech-02", "tech-02 08:30-09:00")]
    // At work already: it says nothing new.
    [InlineData("08:30 resumed_work tech-01", "")]
    [InlineData("09:50 resumed_work tech-01\n09:55 work_stopped tech-01", "tech-01 09:50-09:55")]
    public void Works_WorkTakenUpAgain_IsWork(string resumed, string more) =>
        Assert.Equal(Both("tech-01 08:20-09:40", more), Works(MakeSafe.Isolation + MakeSafe.Work + resumed));

    [Theory]
    // After all work, no test running: the owner is back, at whatever they do next.
    [InlineData("17:10 resumed_work tech-01", "")]
    [InlineData("16:00 machine_started op-01\n17:10 resumed_work tech-01", "")]
    [InlineData("16:00 test_energised op-01\n17:10 resumed_work tech-01", "tech-01 17:10-")]
    [InlineData("16:00 test_energised op-01\n16:30 test_ended op-01\n17:10 resumed_work tech-01", "")]
    // Their own start says when hands went in; their own end alone says that they were.
    [InlineData(
        "17:10 resumed_work tech-01\n17:30 work_started tech-01\n17:40 work_stopped tech-01",
        "tech-01 17:30-17:40"
    )]
    [InlineData("17:10 resumed_work tech-01\n17:40 work_stopped tech-01", "tech-01 17:10-17:40")]
    // Others at work, now or later: the job goes on.
    [InlineData(
        "17:05 work_started tech-02\n17:10 resumed_work tech-01\n17:40 work_stopped tech-02",
        "tech-02 17:05-17:40; tech-01 17:10-"
    )]
    [InlineData(
        "17:10 resumed_work tech-01\n17:20 work_started tech-02\n17:40 work_stopped tech-02",
        "tech-01 17:10-; tech-02 17:20-17:40"
    )]
    // Nobody took off a device of theirs.
    [InlineData("17:10 resumed_work tech-02", "tech-02 17:10-")]
    public void Works_OwnerOfADeviceTakenOff_IsOnlyBackWhenAllWorkIsOver(string after, string more) =>
        Assert.Equal(
            Both("tech-01 08:20-09:30", more),
            Works(
                MakeSafe.Isolation
                    + "08:20 work_started tech-01\n09:30 work_stopped tech-01\n"
                    + CutOff
                    + after
            )
        );

    [Fact]
    public void Protection_WorkTakenUpAgainWithoutAnOwnLock_IsNotMet()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Isolation
                    + MakeSafe.Work
                    + "08:30 resumed_work tech-02\n09:00 work_stopped tech-02\n"
            )
            .Judge(new Check.Protection());

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("tech-02", outcome.Statement, StringComparison.Ordinal);
    }

    private static string Both(string first, string more) => more.Length == 0 ? first : $"{first}; {more}";

    private static string Works(string timeline) =>
        string.Join(
            "; ",
            TimelineReading
                .Of(new SafetyCase().With(timeline).Frame())
                .Works.Select(work =>
                    $"{work.Person} {At(work.Start)}-{(work.Stop is { } stop ? At(stop) : "")}"
                )
        );

    private static string At(Rules.Evaluation.OrderedEvent entry) => entry.Event.At.Text[11..16];
}
