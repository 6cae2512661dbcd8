using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>The site's clocks go back from +01:00 to +00:00 at 2026-10-25T01:00Z.</summary>
public sealed class OffsetChangesTests
{
    private const string Brake = "2026-10-25T01:40:00+01:00 parking_brake_set tech-01\n";

    [Theory]
    [InlineData("2026-10-25T01:50:00+01:00 key_removed tech-01", Verdict.Met)]
    // The clocks were moved in between.
    [InlineData("2026-10-25T01:05:00+00:00 key_removed tech-01", Verdict.Met)]
    [InlineData("2026-10-25T01:05:00Z key_removed tech-01", Verdict.Met)]
    // They were not yet, or another offset altogether.
    [InlineData("2026-10-25T00:50:00+00:00 key_removed tech-01", Verdict.Unproven)]
    [InlineData("2026-10-25T02:50:00+02:00 key_removed tech-01", Verdict.Unproven)]
    [InlineData("2026-10-25T02:50:00+02:00 key_removed tech-01 mark=late-entry", Verdict.Met)]
    // Another hand, or another device, has a clock of its own.
    [InlineData("2026-10-25T02:50:00+02:00 key_removed tech-02", Verdict.Met)]
    [InlineData("2026-10-25T02:50:00+02:00 key_removed tech-01 device=D-1", Verdict.Met)]
    // Without offset nothing is said of it.
    [InlineData("2026-10-25T01:50:00 key_removed tech-01", Verdict.Met)]
    public void Evaluate_AfterATimeInTheSitesOffset_ChangesOnlyWithTheSite(string next, Verdict expected) =>
        Assert.Equal(expected, Judge(Brake + next).Verdict);

    [Fact]
    public void Evaluate_ANeighboursClockThroughTheChange_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                """
                2026-10-25T02:40:00+02:00 parking_brake_set tech-01
                2026-10-25T02:05:00+01:00 key_removed tech-01
                """
            ).Verdict
        );

    [Fact]
    public void Evaluate_UtcThroughTheChange_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                """
                2026-10-25T00:40:00Z parking_brake_set tech-01
                2026-10-25T01:05:00Z key_removed tech-01
                """
            ).Verdict
        );

    [Fact]
    public void Evaluate_OneTimeOfSeveral_IsTheOneThatIsToldAndStaysEvidence()
    {
        var safety = new SafetyCase { Date = new(2026, 4, 13) }.With(
            "08:02 parking_brake_set tech-01\n2026-04-13T09:03:00+02:00 key_removed tech-01\n" + MakeSafe.Work
        );

        Assert.Equal<string>(
            ["/timeline/1"],
            safety.Judge(new Check.Credibility(CredibilityOf.OffsetChanges)).Evidence
        );
        Assert.Equal(
            Verdict.Met,
            safety
                .Judge(FoundationChecks.Before(Domain.Timeline.TimelineEventKind.KeyRemoved, MachineNeed.Key))
                .Verdict
        );
    }

    private static Rules.Evaluation.CheckOutcome Judge(string timeline) =>
        new SafetyCase { Date = new(2026, 10, 25) }
            .With(timeline)
            .Judge(new Check.Credibility(CredibilityOf.OffsetChanges));
}
