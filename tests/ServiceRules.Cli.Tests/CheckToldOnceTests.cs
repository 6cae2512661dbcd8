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
