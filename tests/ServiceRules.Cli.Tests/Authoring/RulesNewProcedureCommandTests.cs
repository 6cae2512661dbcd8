using System.Text.Json.Nodes;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>A procedure says what the shop wrote and nothing of an example; the clock of a site is computed anew.</summary>
public sealed class RulesNewProcedureCommandTests : IDisposable
{
    private readonly OwnShop _shop = new();

    public void Dispose() => _shop.Dispose();

    [Fact]
    public void Procedure_OfAMachineThatWasReadUp_HasItsSourcesAndNoInspection()
    {
        _shop.Pedestrian("M-01");

        var outcome = _shop.Procedure("P-pedestrian-1", "--machine", "M-01");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("not stated, and told on each job", outcome.StandardOutput, StringComparison.Ordinal);
        var text = File.ReadAllText(
            Path.Combine(_shop.Folder, "site-prairie-links/procedures/P-pedestrian-1.json")
        );
        Assert.Contains("start tried, people clear", text, StringComparison.Ordinal);
        Assert.DoesNotContain("inspect", text, StringComparison.Ordinal);
        Assert.DoesNotContain("energisedTasks", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Procedure_OutOfWordsThatNobodyRead_IsRefused()
    {
        _shop.RideOn("M-01");
        var before = RulesCopy.Everything(_shop.Folder);

        var outcome = _shop.Procedure("P-ride-on-1", "--machine", "M-01", "--machine", "M-09");

        Manners.HoldForRefusal(outcome);
        Assert.All(
            new[]
            {
                "`engine_start`: its words are those of an example",
                "`hydraulic`: its words are those of an example",
                "--machine: there is no machine `M-09` in the register; accepted: M-01",
            },
            told => Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal)
        );
        Assert.Equal(before, RulesCopy.Everything(_shop.Folder));
    }

    [Fact]
    public void Machine_ThatStands_IsNotLaidOutAnewLikeAnother()
    {
        _shop.Pedestrian("M-01");

        _shop.Refused(["machine", "M-01", "--change", "--like", "ride-on"], "would be lost");
    }

    [Fact]
    public void Procedure_ThatLeavesASourceOfItsMachineOut_IsRefused()
    {
        _shop.Pedestrian("M-01");

        var outcome = _shop.Procedure(
            "P-1",
            "--machine",
            "M-01",
            "--source",
            "spring title=Spring",
            "--source",
            "spring proof=spring is slack"
        );

        Manners.HoldForRefusal(outcome);
        Assert.Contains("`engine_start`", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("of `M-01` is left out", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Procedure_ForMachinesThatAreNotAlike_IsRefused()
    {
        _shop.Pedestrian("M-01");
        _shop.Made(
            "machine",
            "M-02",
            "--title",
            "Pedestrian machine",
            "--like",
            "M-01",
            "--source",
            "spring title=Spring",
            "--source",
            "spring proof=spring is slack"
        );

        var outcome = _shop.Procedure("P-1", "--machine", "M-01", "--machine", "M-02");

        Manners.HoldForRefusal(outcome);
        Assert.Contains(
            "`M-02` is registered with other sources",
            outcome.StandardError,
            StringComparison.Ordinal
        );
        Assert.Equal(0, _shop.Procedure("P-1", "--machine", "M-01").ExitCode);
        Manners.HoldForRefusal(_shop.Procedure("P-1", "--machine", "M-01"));
        var twice = _shop.Procedure("P-2", "--machine", "M-01");
        Manners.HoldForRefusal(twice);
        Assert.Contains("SR0070", twice.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Procedure_InPlaceOfAnother_EndsThatTheDayBefore()
    {
        _shop.Pedestrian("M-01");
        Assert.Equal(0, _shop.Procedure("P-1", "--machine", "M-01").ExitCode);
        string[] next =
        [
            "procedure",
            "P-2",
            "--title",
            "Pedestrian machine",
            "--machine",
            "M-01",
            "--key",
            "no",
            "--parking-brake",
            "no",
            "--lowering-units",
            "no",
            "--reel-drive",
            "yes",
        ];
        _shop.Refused(
            [.. next, "--from", "2026-09-01", "--replaces", "P-7"],
            "--replaces: there is no procedure `P-7`; accepted: P-1",
            "--control-steps-changed is not given"
        );
        string[] replacing = ["--replaces", "P-1", "--control-steps-changed", "yes"];
        _shop.Refused(
            [.. next, "--from", "2026-01-01", .. replacing],
            "`P-1` is not in force before 2026-01-01"
        );

        _shop.Made([.. next, "--from", "2026-09-01", .. replacing]);

        var folder = Path.Combine(_shop.Folder, "site-prairie-links/procedures");
        Assert.Contains(
            "\"until\": \"2026-08-31\"",
            File.ReadAllText(Path.Combine(folder, "P-1.json")),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "\"controlStepsChanged\": true",
            File.ReadAllText(Path.Combine(folder, "P-2.json")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Procedure_WhichControlsTheMachineHas_IsSaidAndNotSupposed() =>
        _shop.Refused(
            ["procedure", "P-1"],
            "--title is not given",
            "--machine is not given",
            "--from is not given",
            "--key is not given",
            "--parking-brake is not given",
            "--lowering-units is not given",
            "--reel-drive is not given"
        );

    /// <summary>A clock of before, as of a folder that was made in 2001.</summary>
    [Fact]
    public void Clock_ComputedAnew_KeepsTheYearsBeforeIt()
    {
        var file = Path.Combine(_shop.Folder, "site-prairie-links/site.json");
        var site = JsonNode.Parse(File.ReadAllBytes(file))!;
        var computed = site["zone"]!["transitions"]!.ToJsonString();
        site["zone"]!["dataVersion"] = "2001a";
        site["zone"]!["transitions"] = new JsonArray(
            new JsonObject { ["at"] = "2001-04-01T08:00:00Z", ["offsetMinutes"] = -300 },
            new JsonObject { ["at"] = "2001-10-28T07:00:00Z", ["offsetMinutes"] = -360 },
            new JsonObject { ["at"] = "2199-10-28T07:00:00Z", ["offsetMinutes"] = -300 }
        );
        File.WriteAllText(file, site.ToJsonString());

        var outcome = _shop.Run("rules", "clock", "--zone-data", "later", "--rules", _shop.Folder);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var zone = JsonNode.Parse(File.ReadAllBytes(file))!["zone"]!;
        Assert.Equal("later", (string?)zone["dataVersion"]);
        Assert.Equal(
            "[{\"at\":\"2001-04-01T08:00:00Z\",\"offsetMinutes\":-300},{\"at\":\"2001-10-28T07:00:00Z\",\"offsetMinutes\":-360},"
                + computed[1..],
            zone["transitions"]!.ToJsonString()
        );
    }
}
