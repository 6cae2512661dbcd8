using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class RestTooSoonTests
{
    private static readonly Check AtRest = new Check.Credibility(CredibilityOf.RestTooSoon);

    [Theory]
    [InlineData("08:03:10", "08:03:11", null, Verdict.Unproven)]
    [InlineData("08:03:10", "08:03:12", null, Verdict.Met)]
    [InlineData("08:03", "08:03", null, Verdict.Met)]
    [InlineData("08:03:10", "08:03:39", 30, Verdict.Unproven)]
    [InlineData("08:03:10", "08:03:40", 30, Verdict.Met)]
    [InlineData("08:03", "08:03", 60, Verdict.Met)]
    [InlineData("08:03", "08:03", 61, Verdict.Unproven)]
    public void Evaluate_SeenAtRestAfterAStop_TakesALookAndTheStatedTime(
        string stopped,
        string seen,
        int? runDown,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge($"{stopped} machine_shut_down tech-01\n{seen} seen_at_rest tech-01", runDown).Verdict
        );

    [Fact]
    public void Evaluate_TooSoon_TellsHowLongItTakesAndWhichEntries()
    {
        var outcome = Judge("08:03:10 machine_shut_down tech-01\n08:03:11 seen_at_rest tech-01", 30);

        Assert.Equal(
            "Everything seen at rest at 08:03:11 by tech-01 is entered 1 second after the machine shut down at 08:03:10, which procedure P-1 says takes 30 seconds to run down.",
            outcome.Statement
        );
        Assert.Equal<string>(["/timeline/0", "/timeline/1"], outcome.Evidence);
    }

    /// <summary>What turns runs down from the first stop after it ran, not from the last.</summary>
    [Theory]
    [InlineData("08:02:00 test_energised tech-01\n08:02:30 test_ended tech-01\n", Verdict.Met)]
    [InlineData("08:02:00 test_ended tech-01\n08:02:30 test_energised tech-01\n", Verdict.Unproven)]
    public void Evaluate_StoppedBefore_RunsDownFromThen(string before, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(before + "08:03:10 machine_shut_down tech-01\n08:03:15 seen_at_rest tech-01", 30).Verdict
        );

    [Fact]
    public void Evaluate_LabelledAsEnteredLater_IsMet() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                "08:03:10 machine_shut_down tech-01\n08:03:11 seen_at_rest tech-01 mark=late-entry",
                30
            ).Verdict
        );

    [Fact]
    public void SeenAtRest_TooSoonAfterTheStop_IsNotProvenByIt() =>
        Assert.Equal(
            (Verdict.Unproven, FindingReason.NotCredible),
            new SafetyCase()
                .With(
                    "08:03:10 machine_shut_down tech-01\n08:03:11 seen_at_rest tech-01\n"
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                )
                .Judge(FoundationChecks.Before(Domain.Timeline.TimelineEventKind.SeenAtRest))
                is var outcome
                ? (outcome.Verdict, outcome.Reason)
                : default
        );

    private static CheckOutcome Judge(string timeline, int? runDown) =>
        (new SafetyCase { Procedure = SafetyCase.RideOn with { RunDownSeconds = runDown } })
            .With(timeline)
            .Judge(AtRest);
}
