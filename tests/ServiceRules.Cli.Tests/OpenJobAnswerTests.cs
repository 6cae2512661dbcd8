using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using FsCheck.Xunit;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Of a job that goes on, the headline and what is told under it say the same.</summary>
public sealed class OpenJobAnswerTests : IDisposable
{
    private const int JobsOfOneRun = 40;

    private static readonly string[] Names =
    [
        "height-check",
        "height-check-by-two",
        "clear-blockage",
        "lap",
        "grinder-125",
        "touch-up",
        "bench-height-check",
    ];

    private static readonly string[] Shown =
    [
        "nothing is missing, work may begin",
        "nothing is missing so far, work may go on",
        "nothing of the work so far is missing",
    ];

    private static readonly string[] NotShown =
    [
        "may not begin yet",
        "may not go on",
        "is not shown, for what is told below",
        "not all of the work so far is shown",
    ];

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>Whoever takes over at a change of shift, without a lock yet, may not begin: it says what they lack.</summary>
    [Fact]
    public void Check_ChangeOfShiftWithoutALock_SaysWhoMayNotBeginAndWhatTheyLack()
    {
        var job = JsonNode.Parse(Fixtures.Bytes("height-check"))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var entries = job["timeline"]!.AsArray();
        var off = entries.First(one => (string?)one!["event"] == "lock_removed")!;
        foreach (
            var later in entries
                .Where(one => string.CompareOrdinal((string)one!["at"]!, (string)off["at"]!) > 0)
                .ToList()
        )
        {
            entries.Remove(later);
        }

        job["people"]!.AsArray().Add(new JsonObject { ["id"] = "tech-01", ["role"] = "performs" });
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var line = Assert.Single(
            _product.Run("check", open).StandardOutput.Split('\n'),
            one => one.Contains("may not begin", StringComparison.Ordinal)
        );

        Assert.StartsWith("  not yet: tech-01 may not begin; ", line, StringComparison.Ordinal);
        Assert.Contains("engine start", line, StringComparison.Ordinal);
        Assert.Contains("own lock", line, StringComparison.Ordinal);
        Assert.Contains("engine start verified dead", line, StringComparison.Ordinal);
        Assert.Contains("the handover briefed between tech-01 and tech-02", line, StringComparison.Ordinal);
    }

    /// <summary>Whoever had hands in and took the lock off may not simply go back: it says why, and what comes first.</summary>
    [Theory]
    [InlineData("height-check", "lock_removed", "own lock on engine start")]
    [InlineData("lap", "test_energised", "the machine shut down after the machine energised for a test at ")]
    public void Check_HandsOutAndNoLongerProtected_SaysWhoMayNotPutThemInAgain(
        string name,
        string until,
        string why
    )
    {
        var job = JsonNode.Parse(Fixtures.Bytes(name))!.AsObject();
        Assert.True(job.Remove("signOff"));
        var entries = job["timeline"]!.AsArray();
        var off = (string)entries.First(one => (string?)one!["event"] == until)!["at"]!;
        foreach (
            var later in entries.Where(one => string.CompareOrdinal((string)one!["at"]!, off) > 0).ToList()
        )
        {
            entries.Remove(later);
        }

        var told = _product
            .Run("check", _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString())))
            .StandardOutput;

        var line = Assert.Single(
            told.Split('\n'),
            one => one.Contains("may not put hands in again", StringComparison.Ordinal)
        );
        Assert.Contains(why, line, StringComparison.Ordinal);
        Assert.Contains("make safe again", line, StringComparison.Ordinal);
        Assert.DoesNotContain("work may begin", told, StringComparison.Ordinal);
    }

    /// <summary>Identifiers stand as recorded, also where a line begins with one; words of the product begin with a capital.</summary>
    [Fact]
    public void Check_StepsBeforeHands_NamePeopleAsRecorded()
    {
        var job = Cut("height-check", "lock_applied", 0);

        var steps = _product
            .Run("check", _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString())))
            .StandardOutput.Split('\n')
            .Where(line =>
                line.StartsWith("  ", StringComparison.Ordinal)
                && line.IndexOf(". ", StringComparison.Ordinal) == 3
            )
            .Select(line => line[5..])
            .ToList();

        Assert.Contains(steps, line => line.Contains("tech-02", StringComparison.Ordinal));
        Assert.DoesNotContain(steps, line => line.Contains("Tech-02", StringComparison.Ordinal));
        Assert.All(
            steps,
            line =>
                Assert.True(
                    char.IsAsciiLetterUpper(line[0]) || line.Split(' ')[0].Any(char.IsAsciiDigit),
                    line
                )
        );
    }

    /// <summary>Before anything else, whoever is not authorised is told so, and no lock is asked of them.</summary>
    [Fact]
    public void Check_SoleWorkerNotAuthorised_SaysFirstThatSomebodyElseMustDoIt()
    {
        var job = JsonNode
            .Parse(Fixtures.Text("height-check").Replace("tech-02", "op-04", StringComparison.Ordinal))!
            .AsObject();
        Assert.True(job.Remove("signOff"));
        job["timeline"] = new JsonArray();
        var open = _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var lines = _product.Run("check", open).StandardOutput.Split('\n').ToList();

        var barred = lines.FindIndex(line =>
            line.StartsWith(
                "Not by op-04: op-04 is not authorised to lock out and work on machines; somebody authorised must do this work",
                StringComparison.Ordinal
            )
        );
        Assert.InRange(
            barred,
            1,
            lines.FindIndex(line => line.StartsWith("  1. ", StringComparison.Ordinal)) - 1
        );
        Assert.DoesNotContain(
            lines,
            line => line.Contains("own lock or control of op-04", StringComparison.Ordinal)
        );
    }

    /// <summary>With a clearing still to come, work may begin, and nothing stops it.</summary>
    [Fact]
    public void Check_BlockageStillToBeCleared_StopsNothing()
    {
        var job = Cut("clear-blockage", "blockage_cleared_with_tool", 0);
        var entries = job["timeline"]!.AsArray();
        var reviewed = entries[0]!.DeepClone().AsObject();
        reviewed["event"] = "energy_reviewed";
        reviewed["by"] = "tech-01";
        _ = reviewed.Remove("others");
        entries.Insert(0, reviewed);

        var text = _product.Run("check", Written("open", job)).StandardOutput;

        Assert.DoesNotContain("MAKE SAFE FIRST", text, StringComparison.Ordinal);
        Assert.Contains(Shown, one => text.Contains(one, StringComparison.Ordinal));
    }

    [Property(MaxTest = 3)]
    public void Check_AnyOpenJob_HeadlineAndListAgree(int seed)
    {
        var random = new Random(seed);
        var day = new DateOnly(2026, 4, 13);
        var files = Enumerable
            .Range(0, JobsOfOneRun)
            .Select(index =>
            {
                var job = Random(random);
                var name = string.Create(CultureInfo.InvariantCulture, $"OPEN-{index}");
                job["id"] = name;
                // Each on a day of its own, so that none bears on another.
                var text = job.ToJsonString()
                    .Replace(
                        "2026-04-13",
                        day.AddDays(index).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                        StringComparison.Ordinal
                    );
                return _product.Write(name + ".json", Encoding.UTF8.GetBytes(text));
            })
            .ToArray();

        var answers = _product
            .Run(["check", .. files])
            .StandardOutput.Split("\nOPEN-", StringSplitOptions.RemoveEmptyEntries);

        Assert.Equal(JobsOfOneRun, answers.Length);
        Assert.All(
            answers,
            answer =>
            {
                var stops = answer.Split('\n')[0].Contains("MAKE SAFE FIRST", StringComparison.Ordinal);
                Assert.False(
                    stops && Array.Exists(Shown, one => answer.Contains(one, StringComparison.Ordinal)),
                    answer
                );
                Assert.True(
                    stops || !answer.Contains("hands out until it is", StringComparison.Ordinal),
                    answer
                );
                Assert.True(
                    !stops || Array.Exists(NotShown, one => answer.Contains(one, StringComparison.Ordinal)),
                    answer
                );
            }
        );
    }

    private static JsonObject Random(Random random)
    {
        var job = Open(Names[random.Next(Names.Length)]);
        var entries = job["timeline"]!.AsArray();
        var kept = random.Next(entries.Count + 1);
        while (entries.Count > kept)
        {
            entries.RemoveAt(entries.Count - 1);
        }

        for (var dropped = random.Next(3); dropped > 0 && entries.Count > 0; dropped--)
        {
            entries.RemoveAt(random.Next(entries.Count));
        }

        return job;
    }

    private static JsonObject Cut(string name, string kind, int more)
    {
        var job = Open(name);
        var entries = job["timeline"]!.AsArray();
        var at = entries.ToList().FindIndex(one => (string?)one!["event"] == kind) + more;
        while (entries.Count > at)
        {
            entries.RemoveAt(entries.Count - 1);
        }

        return job;
    }

    private static JsonObject Open(string name)
    {
        var job = JsonNode.Parse(Fixtures.Bytes(name))!.AsObject();
        _ = job.Remove("signOff");
        _ = job.Remove("followUp");
        return job;
    }

    private string Written(string name, JsonObject job) =>
        _product.Write(name + ".json", Encoding.UTF8.GetBytes(job.ToJsonString()));
}
