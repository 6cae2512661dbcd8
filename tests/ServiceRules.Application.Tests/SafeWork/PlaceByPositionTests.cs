using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A unit that has its place on a machine is not off it, whatever the record calls the place.</summary>
public sealed class PlaceByPositionTests
{
    [Fact]
    public void Unit_WithoutAPosition_IsJudgedOnTheBench()
    {
        var job = Bench("M-02");

        Assert.Equal(WorkPlace.OnBench, PlaceOf(job));
        Assert.Equal(Verdict.Met, Finding(job).Verdict);
    }

    [Fact]
    public void Unit_InItsPlaceOnAMachine_IsJudgedOnTheMachineAndStopped()
    {
        var job = Bench("M-02").Position(0, 3);

        Assert.Equal(WorkPlace.OnMachine, PlaceOf(job));
        Assert.Equal(Verdict.NotMet, Finding(job).Verdict);
        Assert.Contains("at position 3 of M-02", Finding(job).Statement, StringComparison.Ordinal);
        Assert.Contains("/units/0/position", Finding(job).Evidence);
        Assert.Equal(Disposition.Stop, job.Judge().Job.Disposition);
    }

    [Fact]
    public void Unit_WithAPlaceOnABenchOfItsOwn_IsJudgedOnTheBench() =>
        Assert.Equal(WorkPlace.OnBench, PlaceOf(Bench("BENCH-1").Position(0, 3)));

    [Theory]
    [InlineData("electricalWork", "true", "work on electrical parts of M-02")]
    [InlineData("setting", "\"in-use\"", "M-02 in use on turf")]
    public void Unit_WithWhatOnlyTheMachineHas_IsJudgedOnTheMachineAndStopped(
        string member,
        string value,
        string told
    )
    {
        var job = Bench("M-02").Record(member, JsonNode.Parse(value));

        Assert.Equal(WorkPlace.OnMachine, PlaceOf(job));
        Assert.Equal(Verdict.NotMet, Finding(job).Verdict);
        Assert.Contains(told, Finding(job).Statement, StringComparison.Ordinal);
        Assert.Contains($"/{member}", Finding(job).Evidence);
        Assert.Equal(Disposition.Stop, job.Judge().Job.Disposition);
    }

    [Fact]
    public void Unit_WithTheHoursOfItsMachine_IsJudgedOnTheBench() =>
        Assert.Equal(
            WorkPlace.OnBench,
            PlaceOf(
                Bench("M-02")
                    .Record(
                        "machine",
                        JsonNode.Parse("""{ "id": "M-02", "area": "golf-greens", "hours": "812 h" }""")
                    )
            )
        );

    [Fact]
    public void Unit_WithNoStepAtAll_IsStopped() =>
        Assert.Equal(
            Disposition.Stop,
            Bench("M-02").Record("timeline", new JsonArray()).Judge().Job.Disposition
        );

    private static Finding Finding(EditedJob job) =>
        job.Judge().Findings.Single(one => one.Rule == "place-as-recorded");

    private static WorkPlace PlaceOf(EditedJob job) =>
        FrameBuilder.Build(job.Read(), job.Context(), EditedJob.Book).Record.Place;

    private static EditedJob Bench(string machine) =>
        EditedJob
            .Of("bench-height-check")
            .Record("machine", JsonNode.Parse($$"""{ "id": "{{machine}}", "area": "golf-greens" }"""))
            .ProceduresOf("clear-blockage", "M-02");
}
