using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>What is done with the machine between the proof that it is dead and the hands that rely on it.</summary>
public sealed class ProofGivenUpTests
{
    private const string Before = MakeSafe.Seat + MakeSafe.Isolation;

    [Theory]
    [InlineData("08:18 cut_outs_proved tech-01\n", Verdict.Unproven)]
    [InlineData("08:18 handed_back tech-01\n", Verdict.Unproven)]
    // Before it was proven dead, or proven dead again since.
    [InlineData("08:13 cut_outs_proved tech-01\n", Verdict.Met)]
    [InlineData("08:13 handed_back tech-01\n", Verdict.Met)]
    [InlineData("08:18 handed_back tech-01\n08:19 isolation_verified tech-01 source=all\n", Verdict.Met)]
    [InlineData("08:18 cut_outs_proved tech-01\n08:19 isolation_verified tech-01 source=all\n", Verdict.Met)]
    public void Protection_BeforeWork_IsProvenAgain(string entries, Verdict expected)
    {
        var job = new SafetyCase().With(Before + entries + MakeSafe.Work + MakeSafe.After);

        Assert.Equal(expected, job.Judge(new Check.Protection()).Verdict);
    }

    [Theory]
    [InlineData(
        "cut_outs_proved",
        "the cut-outs proved",
        "how, with the machine held off, nor that it stayed off"
    )]
    [InlineData("handed_back", "the machine handed back", "that whoever had it back left it as it was")]
    public void Protection_GivenUp_TellsTheProofAndWhoReliedOnIt(string entry, string what, string unsaid)
    {
        var outcome = new SafetyCase()
            .With(Before + $"08:18 {entry} lead-01\n" + MakeSafe.Work + MakeSafe.After)
            .Judge(new Check.Protection());

        Assert.Equal(
            $"The record shows {what} at 08:18 by lead-01, after the isolation verified at 08:17, and tech-01 starting work at 08:20 with nothing verified since: it does not show {unsaid}.",
            outcome.Statement
        );
        Assert.Equal<string>(["/timeline/14", "/timeline/15", "/timeline/16"], outcome.Evidence);
    }

    // In the run after release, and with no hands in after it.
    [Fact]
    public void Protection_AfterTheWork_IsNoMatter() =>
        Assert.Equal(Verdict.Met, MakeSafe.Complete.Judge(new Check.Protection()).Verdict);

    [Fact]
    public void Protection_BetweenTwoStretchesOfWork_IsProvenAgain() =>
        Assert.Equal(
            Verdict.Unproven,
            new SafetyCase()
                .With(
                    Before
                        + "08:20 work_started tech-01\n08:40 work_stopped tech-01\n08:45 handed_back tech-01\n08:50 work_started tech-01\n09:40 work_stopped tech-01\n"
                        + MakeSafe.After
                )
                .Judge(new Check.Protection())
                .Verdict
        );
}
