using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>
/// Looks by eye from outside the guards: with the machine stopped nothing more is asked; else one finding says what is needed; and
/// whatever takes a hand to the machine makes it a job like any other.
/// </summary>
public sealed class LookFromOutsideTests
{
    private const string Seen = """{ "read": "guards", "condition": "sound" }""";

    [Fact]
    public void Look_MachineStoppedAndSeenAtRest_NothingMoreIsAsked() => Assert.Empty(Open(Look()));

    [Fact]
    public void Look_TimedAfterTheRest_NothingMoreIsAsked() =>
        Assert.Empty(Open(Look(""" , "at": "2026-04-13T07:36:00+01:00" """)));

    [Fact]
    public void Look_EnteredAsWork_NothingMoreIsAsked() =>
        Assert.Empty(
            Open(Look().With("work_started", "07:36", "tech-01").With("work_stopped", "07:38", "tech-01"))
        );

    [Fact]
    public void Look_EnteredAsWorkWithTheMachineStarted_IsOneFinding() =>
        Assert.Contains(
            "the machine ran",
            Single(
                Look()
                    .With("work_started", "07:36", "tech-01")
                    .With("machine_started", "07:37", "tech-01")
                    .With("work_stopped", "07:38", "tech-01")
                    .Judge()
            ).Statement,
            StringComparison.Ordinal
        );

    [Fact]
    public void Look_EnteredAsWorkBeforeTheRest_IsOneFinding() =>
        Assert.Equal(
            Verdict.NotMet,
            Single(
                Look()
                    .With("work_started", "07:29", "tech-01")
                    .With("work_stopped", "07:38", "tech-01")
                    .Judge()
            ).Verdict
        );

    [Theory]
    [InlineData("machine_shut_down")]
    [InlineData("seen_at_rest")]
    public void Look_WithoutTheStop_IsOneFinding(string missing)
    {
        Assessment found = Look().Without(missing).Judge();

        Assert.Equal(Disposition.Stop, found.Job.Disposition);
        Assert.Contains("they need no lockout", Single(found).Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Look_BeforeTheRest_IsOneFinding() =>
        Assert.Equal(
            Verdict.NotMet,
            Single(Look(""" , "at": "2026-04-13T07:29:00+01:00" """).Judge()).Verdict
        );

    [Fact]
    public void Look_WithTheMachineStartedAgain_IsOneFinding() =>
        Assert.Contains(
            "the machine ran",
            Single(
                Look(""" , "at": "2026-04-13T07:46:00+01:00" """)
                    .With("machine_started", "07:45", "tech-01")
                    .Judge()
            ).Statement,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("guards_refitted")]
    [InlineData("reel_wedged")]
    [InlineData("unit_supported")]
    public void Look_WithAStepOfHands_IsAJobLikeAnyOther(string kind) =>
        Assert.True(Open(Look().With(kind, "07:40", "tech-01")).Count > 5);

    [Theory]
    [InlineData("""{ "read": "clearance", "contact": "none" }""")]
    [InlineData("""{ "read": "bearing-play", "condition": "sound" }""")]
    public void Look_WithAReadingByHand_IsAJobLikeAnyOther(string entry) =>
        Assert.True(Open(Look().Unit(0, entry)).Count > 5);

    [Fact]
    public void Look_OfAFullService_IsAJobLikeAnyOther() =>
        Assert.True(Open(Look().Record("tasks", JsonNode.Parse("""["full-service"]"""))).Count > 5);

    [Fact]
    public void Look_OfWhichNothingSaysThatHandsStayedOut_IsAJobLikeAnyOther() =>
        Assert.True(Open(Look().Record("handsInBladeZone", true)).Count > 5);

    private static EditedJob Look(string more = "") =>
        EditedJob
            .Of("daily-check")
            .Without(entry =>
                entry["event"]!.GetValue<string>()
                    is not ("drive_disengaged" or "machine_shut_down" or "seen_at_rest" or "handed_back")
            )
            .Record("handsInBladeZone", false)
            .Unit(0, Seen.Replace(" }", $"{more} }}", StringComparison.Ordinal))
            .WithoutReadings("clearance");

    private static Finding Single(Assessment found) => Assert.Single(found.Findings, IsOpen);

    private static List<string> Open(EditedJob job) =>
        [.. job.Judge().Findings.Where(IsOpen).Select(one => $"{one.Rule}: {one.Statement}")];

    private static bool IsOpen(Finding finding) =>
        finding.Verdict is Verdict.NotMet or Verdict.Unproven
        && finding.Effect is Effect.Hold or Effect.Stop
        && finding.Subject is Subject.Job;
}
