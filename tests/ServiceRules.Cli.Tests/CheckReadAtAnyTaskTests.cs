using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What was read is not hidden by the name of the task.</summary>
public sealed class CheckReadAtAnyTaskTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Theory]
    [InlineData("""{ "read": "bearing-play", "condition": "faulty" }""", "Reel bearings without play")]
    [InlineData("""{ "read": "edge", "condition": "faulty" }""", "Edges cut paper")]
    [InlineData(
        """{ "read": "clearance", "contact": "heavy" }""",
        "Contact as the school asks, where it was noted"
    )]
    public void Check_ReadAndOutAtAHeightCheck_Holds(string entry, string title)
    {
        var outcome = Check("height-check", job => Entries(job).Add(JsonNode.Parse(entry)));

        Assert.Contains("height check: HOLD", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains($"OUT, holds  {title}", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_ReadAndJudgedByNoRule_SaysSo() =>
        Assert.Contains(
            "read, and judged by no rule: ",
            Check(
                "height-check",
                job => Entries(job).Add(JsonNode.Parse("""{ "read": "attitude", "condition": "sound" }"""))
            ).StandardOutput,
            StringComparison.Ordinal
        );

    [Fact]
    public void Check_TaskThatNoUnitHad_IsToldAndHeld()
    {
        var outcome = Check(
            "full-service-125",
            job => job["units"]![0]!["tasks"] = new JsonArray("daily-check")
        );

        Assert.Contains("full service: HOLD", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("no unit had full service", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("by its own tasks daily check", outcome.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>Two readings outvote one; that there was one is told all the same.</summary>
    [Fact]
    public void Check_ReadingOutvoted_IsToldWithWhatIsIn()
    {
        var outcome = Check(
            "height-check",
            job =>
            {
                var again = Entries(job).Select(one => one!.DeepClone()).ToList();
                Entries(job)[0]!["value"] = "3.98 mm";
                Entries(job)[1]!["value"] = "3.98 mm";
                foreach (var entry in again.Concat(again.Select(one => one.DeepClone())).ToList())
                {
                    Entries(job).Add(entry);
                }
            }
        );

        Assert.Contains("since the one before, 3.98", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("contradicts the latest", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_LoweredByMoreThanAThird_IsToldThoughTheHeightIsIn()
    {
        var outcome = Check(
            "height-change",
            job =>
            {
                Entries(job)[0]!["value"] = "12.04 mm";
                Entries(job)[1]!["value"] = "12.04 mm";
            }
        );

        Assert.Contains(
            "takes off more than a third at once",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    private static JsonArray Entries(JsonObject job) => job["units"]![0]!["entries"]!.AsArray();

    private ProductOutcome Check(string fixture, Action<JsonObject> change)
    {
        var job = JsonNode.Parse(Fixtures.Bytes(fixture))!.AsObject();
        change(job);
        return _product.Run("check", _product.Write("job.json", Encoding.UTF8.GetBytes(job.ToJsonString())));
    }
}
