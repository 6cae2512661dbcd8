using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>The folder of a shop of one's own, in which things are entered by command.</summary>
internal sealed class OwnShop : IDisposable
{
    /// <summary>What stands before words of an example.</summary>
    public const string Mark = "NOT YET READ IN THIS MACHINE'S OWN MANUAL";

    private readonly Product _product = new();

    public OwnShop()
    {
        var made = _product.Run(
            "rules",
            "new",
            "site",
            "Prairie Links",
            "--time-zone",
            "America/Chicago",
            "--lead",
            "lead-01",
            "--technician",
            "tech-01",
            "--lock-style",
            "red body",
            "--to",
            Folder
        );
        Assert.True(made.ExitCode == 0, made.ToString());
    }

    public string Folder => _product.At("shop");

    public void Dispose() => _product.Dispose();

    public ProductOutcome Run(params string[] arguments) => _product.Run(arguments);

    public ProductOutcome New(params string[] more) =>
        _product.Run(["rules", "new", .. more, "--rules", Folder]);

    public ProductOutcome Made(params string[] more)
    {
        var outcome = New(more);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var check = _product.Run("rules", "check", "--rules", Folder);
        Assert.True(check.ExitCode == 0, check.ToString());
        var format = _product.Run("rules", "format", Folder, "--check");
        Assert.True(format.ExitCode == 0, format.ToString());
        return outcome;
    }

    public void Refused(string[] more, params string[] told)
    {
        var before = RulesCopy.Everything(Folder);
        var outcome = New(more);
        Manners.HoldForRefusal(outcome);
        Assert.All(told, one => Assert.Contains(one, outcome.StandardError, StringComparison.Ordinal));
        Assert.Contains("nothing was written to", outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, RulesCopy.Everything(Folder));
    }

    public JsonArray Listed(string list) =>
        JsonNode.Parse(File.ReadAllBytes(Path.Combine(Folder, "site-prairie-links/registers.json")))![
            list
        ]!.AsArray();

    public ProductOutcome RideOn(string id) =>
        Made("machine", id, "--title", "Ride-on, three units", "--like", "ride-on", "--units", "3");

    public ProductOutcome Pedestrian(string id) =>
        Made(
            "machine",
            id,
            "--title",
            "Pedestrian machine",
            "--like",
            "pedestrian",
            "--source",
            "engine_start isolator=plug_lead",
            "--source",
            "engine_start proof=start tried, people clear",
            "--source",
            "reel_rotation release=reel wedged",
            "--source",
            "reel_rotation proof=reel does not turn when pushed with a tool"
        );

    public ProductOutcome Procedure(string id, params string[] more) =>
        New([
            "procedure",
            id,
            "--title",
            "Pedestrian machine",
            "--key",
            "no",
            "--parking-brake",
            "no",
            "--lowering-units",
            "no",
            "--reel-drive",
            "yes",
            "--from",
            "2026-01-01",
            .. more,
        ]);
}
