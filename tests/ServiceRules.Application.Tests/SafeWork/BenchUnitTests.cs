using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A unit off its machine is judged as that, and handed back as that.</summary>
public sealed class BenchUnitTests
{
    [Fact]
    public void Unit_OfAMachineHandedBackFromTheBench_IsJudgedOnTheBench()
    {
        EditedJob job = Bench().With("handed_back", "13:40", "tech-02");

        Assert.Equal(WorkPlace.OnBench, Frame(job).Record.Place);
        Assert.Equal(
            [],
            job.Judge()
                .Findings.Where(one => one.Effect is Effect.Stop)
                .Select(one => $"{one.Rule}: {one.Statement}")
        );
    }

    [Theory]
    [InlineData("machine_started")]
    [InlineData("units_lowered")]
    [InlineData("cut_outs_proved")]
    public void Unit_HandedBackWithAStepOfTheWholeMachine_IsJudgedOnTheMachine(string kind) =>
        Assert.Equal(
            WorkPlace.OnMachine,
            Frame(Bench().With(kind, "13:38", "tech-02").With("handed_back", "13:40", "tech-02")).Record.Place
        );

    [Fact]
    public void Unit_HandedBackWithNothingHeld_IsNotLetOut() =>
        Assert.NotEqual(
            Disposition.Release,
            Bench()
                .With("handed_back", "13:40", "tech-02")
                .Without("unit_supported", "reel_wedged")
                .Judge()
                .Job.Disposition
        );

    // A unit of M-02 on the bench, with what is written of that machine beside what is written of the bench.
    private static EditedJob Bench() =>
        EditedJob
            .Of("bench-height-check")
            .Record("machine", JsonNode.Parse("""{ "id": "M-02", "area": "golf-greens" }"""))
            .ProceduresOf("clear-blockage", "M-02");

    private static JobFrame Frame(EditedJob job) =>
        FrameBuilder.Build(job.Read(), job.Context(), EditedJob.Book);
}
