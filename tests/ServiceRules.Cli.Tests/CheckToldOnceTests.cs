using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What one thing leaves open is told once.</summary>
public sealed class CheckToldOnceTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>One missing lock is one thing to put right, whatever duties it leaves open.</summary>
    [Fact]
    public void Check_OneWithoutALock_IsToldOnceWithEveryDutyThatItLeavesOpen()
    {
        var job = JsonNode
            .Parse(
                File.ReadAllBytes(
                    ReferenceFiles.InRepository(
                        "rules",
                        "base",
                        "fixtures",
                        "height-check-by-two.record.json"
                    )
                )
            )!
            .AsObject();
        foreach (
            var entry in job["timeline"]!.AsArray().Where(one => (string?)one!["lock"] == "L-51").ToList()
        )
        {
            job["timeline"]!.AsArray().Remove(entry);
        }

        var path = _product.Write("bare.json", Encoding.UTF8.GetBytes(job.ToJsonString()));
        var outcome = _product.Run("check", path);

        Assert.Contains(
            "leaves open as well: Own lock in a group; Own lock on while hands are in",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Single(
            outcome.StandardOutput.Split('\n'),
            line => line.Contains("record does not show, stops", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            "leaves open as well",
            _product.Run("check", path, "--all").StandardOutput,
            StringComparison.Ordinal
        );
    }

    /// <summary>Pressure is asked for by the blockage and by the release of everything: the line that asks for more stands.</summary>
    [Fact]
    public void Check_BlockageBeforeHandsGoIn_AsksForReleaseOnce()
    {
        var job = JsonNode
            .Parse(
                File.ReadAllBytes(
                    ReferenceFiles.InRepository("rules", "base", "fixtures", "clear-blockage.record.json")
                )
            )!
            .AsObject();
        Assert.True(job.Remove("signOff"));
        job["timeline"] = new JsonArray();

        var outcome = _product.Run(
            "check",
            _product.Write("open.json", Encoding.UTF8.GetBytes(job.ToJsonString()))
        );

        Assert.Single(
            outcome.StandardOutput.Split('\n'),
            line => line.Contains(". The stored energy released for", StringComparison.Ordinal)
        );
    }

    /// <summary>What entries say against themselves is quoted, each, though all of them prove nothing together.</summary>
    [Fact]
    public void Check_TwoEntriesThatDenyThemselves_AreBothQuoted()
    {
        var path = ReferenceFiles.InRepository(
            "rules",
            "base",
            "fixtures",
            "height-check-by-two.record.json"
        );
        var job = JsonNode.Parse(File.ReadAllBytes(path))!.AsObject();
        Say("seen_at_rest", "reel still turning");
        Say("key_removed", "key left in the switch");
        Say("people_clear_checked", "one still under the unit");

        var outcome = _product.Run(
            "check",
            _product.Write("denied.json", Encoding.UTF8.GetBytes(job.ToJsonString()))
        );

        Assert.All(
            ["reel still turning", "key left in the switch", "one still under the unit"],
            words =>
                Assert.Contains(
                    words,
                    outcome.StandardOutput.ReplaceLineEndings(" "),
                    StringComparison.Ordinal
                )
        );

        void Say(string kind, string words)
        {
            foreach (var entry in job["timeline"]!.AsArray().Where(one => (string?)one!["event"] == kind))
            {
                entry!["method"] = words;
            }
        }
    }

    /// <summary>One identity in two files: each is judged, and that they contradict each other is told.</summary>
    [Fact]
    public void Check_OneRecordInTwoFiles_IsToldByBothNames()
    {
        var path = ReferenceFiles.InRepository(
            "rules",
            "base",
            "fixtures",
            "height-check-by-two.record.json"
        );
        var one = _product.Write("one.json", File.ReadAllBytes(path));
        var same = _product.Write("same.json", File.ReadAllBytes(path));
        var job = JsonNode.Parse(File.ReadAllBytes(path))!.AsObject();
        job["complaint"] = "something else";
        var other = _product.Write("other.json", Encoding.UTF8.GetBytes(job.ToJsonString()));

        var repeated = _product.Run("check", one, same);
        var contradicting = _product.Run("check", one, other);

        Assert.Contains("with the same content", repeated.StandardError, StringComparison.Ordinal);
        Assert.Equal(0, repeated.ExitCode);
        Assert.Contains("with other content in", contradicting.StandardError, StringComparison.Ordinal);
        Assert.Contains("other.json", contradicting.StandardError, StringComparison.Ordinal);
        Assert.Equal(1, contradicting.ExitCode);
    }

    /// <summary>Guards found faulty stop the machine; under their unit only where that is told.</summary>
    [Fact]
    public void Check_FaultyGuardsInAFullService_AreToldOnce()
    {
        var path = ReferenceFiles.InRepository("rules", "base", "fixtures", "full-service-125.record.json");
        var job = JsonNode.Parse(File.ReadAllBytes(path))!.AsObject();
        foreach (var entry in job["units"]![0]!["entries"]!.AsArray())
        {
            if ((string?)entry!["read"] == "guards")
            {
                entry["condition"] = "faulty";
            }
        }

        var outcome = _product.Run(
            "check",
            _product.Write("faulty.json", Encoding.UTF8.GetBytes(job.ToJsonString()))
        );

        Assert.Single(
            outcome.StandardOutput.Split('\n'),
            line => line.Contains("found faulty", StringComparison.Ordinal)
        );
        Assert.Contains(
            "told above: Safety defects closed",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }
}
