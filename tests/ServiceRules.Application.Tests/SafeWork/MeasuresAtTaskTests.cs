using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A task on the running reel: what its own entry says of measures, and words that tell of hands at the turning reel.</summary>
public sealed class MeasuresAtTaskTests
{
    private const string Rule = "energised-measures-first";

    private static readonly string[] Asked = [.. AskedBy()];

    [Fact]
    public void Task_NamingAllThatIsAsked_MayGoOut() =>
        Task(entry => entry["measures"] = List(Asked)).MayGoOut();

    [Fact]
    public void Task_NamingFewerThanIsAsked_IsKept() =>
        Task(entry => entry["measures"] = List(["eye-protection"]))
            .IsKept(Disposition.Hold, Rule, "not with all the measures that the procedure asks for");

    [Theory]
    [InlineData("short brush, paste on by finger")]
    [InlineData("no brush to be had, paste put on with a rag")]
    [InlineData("paste on with my bare hand")]
    [InlineData("fingers close to the turning reel")]
    [InlineData("brush broke, used the stub by hand")]
    [InlineData("reel turning, paste on by finger")]
    [InlineData("reel turning; paste with rag")]
    [InlineData("paste by finger, well spread")]
    public void Task_WhoseWordsTellOfHandsAtTheReel_IsKept(string words)
    {
        Kept(Task(entry => entry["method"] = words), words);
        Kept(Measures(entry => entry["method"] = words), words);
    }

    [Theory]
    [InlineData("long-handled brush, hands well out")]
    [InlineData("long brush, not by finger")]
    [InlineData("long brush in the right hand, left hand on the stop")]
    [InlineData("no hands near the reel, paste on with the long brush")]
    [InlineData("with one hand on the stop, the other on the brush handle")]
    [InlineData("reel turned by hand first to see it free")]
    [InlineData("reel turns freely by hand")]
    [InlineData("long brush, held with both hands")]
    [InlineData("adjusted the bedknife by hand knob")]
    [InlineData("in right hand, brush 60 cm long")]
    public void Task_WhoseWordsKeepHandsAway_MayGoOut(string words)
    {
        Task(entry => entry["method"] = words).MayGoOut();
        Measures(entry => entry["method"] = words).MayGoOut();
    }

    [Fact]
    public void Measures_DeniedAndPutRightBeforeTheRun_MayGoOut() =>
        EditedJob
            .Of("lap")
            .With(
                "alternative_measures_recorded",
                "08:09:20",
                "tech-01",
                """{ "measures": ["eye-protection"], "method": "short brush" }"""
            )
            .MayGoOut();

    private static void Kept(EditedJob job, string words)
    {
        Assessment found = job.Judge();
        Assert.NotEqual(Disposition.Release, found.Job.Disposition);
        Finding finding = Assert.Single(found.Findings, one => one.Rule == Rule);
        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.Contains($"`{words}`", finding.Statement, StringComparison.Ordinal);
    }

    private static EditedJob Task(Action<JsonObject> how) => Of("energised_task_performed", how);

    private static EditedJob Measures(Action<JsonObject> how) => Of("alternative_measures_recorded", how);

    private static EditedJob Of(string kind, Action<JsonObject> how) =>
        EditedJob.Of("lap").Change(entry => entry["event"]!.GetValue<string>() == kind, how);

    private static JsonArray List(IEnumerable<string> measures) =>
        new([.. measures.Select(one => (JsonNode?)JsonValue.Create(one))]);

    private static IEnumerable<string> AskedBy() =>
        JsonNode.Parse(RuleCases.FixtureParts.Context("lap"))!["procedures"]![0]!["energisedTasks"]![0]![
            "measures"
        ]!
            .AsArray()
            .Select(one => one!.GetValue<string>());
}
