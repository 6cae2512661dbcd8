using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>What is entered in the registers by command is sound and canonical there, or nothing was touched.</summary>
public sealed class RulesNewEntryCommandTests : IDisposable
{
    private const string Mark = "NOT YET READ IN THIS MACHINE'S OWN MANUAL";

    private readonly Product _product = new();
    private readonly string _rules;

    public RulesNewEntryCommandTests()
    {
        _rules = _product.At("shop");
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
            _rules
        );
        Assert.True(made.ExitCode == 0, made.ToString());
    }

    public void Dispose() => _product.Dispose();

    private ProductOutcome New(params string[] more) =>
        _product.Run(["rules", "new", .. more, "--rules", _rules]);

    private ProductOutcome Made(params string[] more)
    {
        var outcome = New(more);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var check = _product.Run("rules", "check", "--rules", _rules);
        Assert.True(check.ExitCode == 0, check.ToString());
        var format = _product.Run("rules", "format", _rules, "--check");
        Assert.True(format.ExitCode == 0, format.ToString());
        return outcome;
    }

    private void Refused(string[] more, params string[] told)
    {
        var before = RulesCopy.Everything(_rules);
        var outcome = New(more);
        Manners.HoldForRefusal(outcome);
        Assert.All(told, one => Assert.Contains(one, outcome.StandardError, StringComparison.Ordinal));
        Assert.Contains("nothing was written to", outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, RulesCopy.Everything(_rules));
    }

    private JsonArray Listed(string list) =>
        JsonNode.Parse(File.ReadAllBytes(Path.Combine(_rules, "site-prairie-links/registers.json")))![
            list
        ]!.AsArray();

    private ProductOutcome RideOn(string id) =>
        Made("machine", id, "--title", "Ride-on, three units", "--like", "ride-on", "--units", "3");

    private ProductOutcome Pedestrian(string id) =>
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

    private ProductOutcome Procedure(string id, params string[] more) =>
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

    [Fact]
    public void Person_Entered_MayWhatTheRoleMay()
    {
        var outcome = Made("person", "tech-02", "--role", "technician", "--trained-on", "2026-01-20");

        Assert.Contains("tech-02: authorised", outcome.StandardOutput, StringComparison.Ordinal);
        var entry = Listed("people")[2]!;
        Assert.Equal("tech-02", (string?)entry["id"]);
        Assert.True((bool)entry["authorised"]!);
        Assert.Null(entry["mayRelease"]);
        Assert.Equal("2026-01-20", (string?)entry["trainedOn"]);
    }

    [Fact]
    public void Person_Changed_KeepsWhatIsNotGiven()
    {
        Made("person", "lead-01", "--change", "--trained-on", "2026-01-20", "--trained-until", "2027-01-20");
        Made("person", "lead-01", "--change", "--trained-until", "2028-01-20", "--covers", "gravity");

        var entry = Listed("people")[0]!;
        Assert.Equal("2026-01-20", (string?)entry["trainedOn"]);
        Assert.Equal("2028-01-20", (string?)entry["trainedUntil"]);
        Assert.True((bool)entry["mayRelease"]!);
        Assert.Equal("gravity", (string?)entry["covers"]![0]);
    }

    [Fact]
    public void Person_WrongInEverything_IsToldAllOfItWithItsPlace() =>
        Refused(
            [
                "person",
                "tech-01",
                "--trained-on",
                "2026-02-30",
                "--trained-until",
                "soon",
                "--employer",
                "self",
            ],
            "site-prairie-links/registers.json:6:5 /people/1: there is a person `tech-01` already",
            "--role is not given",
            "--trained-on: `2026-02-30` is no day of the calendar",
            "--trained-until: `soon` is no day",
            "--employer: `self` is not known; accepted: site, outside"
        );

    [Fact]
    public void Person_TrainedUntilBeforeOrNobodyToChange_IsRefused()
    {
        Refused(
            ["person", "tech-09", "--change", "--left", "2026-01-01"],
            "there is no person `tech-09` to change; accepted: lead-01, tech-01"
        );
        Refused(
            [
                "person",
                "tech-02",
                "--role",
                "technician",
                "--trained-on",
                "2026-02-01",
                "--trained-until",
                "2026-01-01",
            ],
            "--trained-until: 2026-01-01 is before --trained-on, 2026-02-01"
        );
        Refused(["person", "tech-01", "--change"], "nothing is given to change");
    }

    [Fact]
    public void Machine_LikeAnExample_IsMarkedUntilItsManualWasRead()
    {
        var outcome = RideOn("M-01");

        Assert.All(
            new[]
            {
                "words of an example, not yet read in this machine's own manual: engine_start, hydraulic, gravity",
                "no written procedure covers M-01",
            },
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
        var machine = Listed("machines")[0]!;
        Assert.Equal(3, (int)machine["units"]!);
        Assert.All(
            machine["sources"]!.AsArray(),
            source => Assert.StartsWith(Mark, (string?)source!["proof"], StringComparison.Ordinal)
        );

        Made(
            "machine",
            "M-01",
            "--change",
            "--source",
            "gravity proof=unit rests",
            "--source",
            "gravity release=units down",
            "--source",
            "engine_start proof=start tried",
            "--without",
            "hydraulic"
        );
        var sources = Listed("machines")[0]!["sources"]!.AsArray();
        Assert.Equal(["engine_start", "gravity"], sources.Select(source => (string?)source!["id"]));
        // How it is proven rests on a device that nobody has looked up yet.
        Assert.Equal($"{Mark}: start tried", (string?)sources[0]!["proof"]);
        Assert.Equal("unit rests", (string?)sources[1]!["proof"]);
    }

    [Fact]
    public void Machine_LikeOneOfTheShop_HasItsSources()
    {
        Pedestrian("M-01");
        Made("machine", "M-02", "--title", "Pedestrian machine, M-02", "--like", "M-01");

        var machines = Listed("machines");
        Assert.Equal(machines[0]!["sources"]!.ToJsonString(), machines[1]!["sources"]!.ToJsonString());
        Assert.DoesNotContain(Mark, machines.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Machine_WrongInEverything_IsToldAllOfIt()
    {
        Pedestrian("M-01");
        Refused(
            [
                "machine",
                "M-01",
                "--like",
                "tractor",
                "--units",
                "none",
                "--source",
                "gravity",
                "--source",
                "spring lockable=perhaps",
                "--source",
                "spring colour=red",
                "--without",
                "mains",
            ],
            "/machines/0: there is a machine `M-01` already",
            "there is no machine and no example `tractor`; accepted: grinder, pedestrian, ride-on, towed-gang; of the register: M-01",
            "--title is not given",
            "--units: `none` is no number",
            "--source: `gravity` has no `=`",
            "--source spring lockable: `perhaps` is neither; accepted: yes or no",
            "--source spring colour: a source has no such member; accepted: title, isolator",
            "--source spring: its title is not given",
            "--source spring: its proof is not given",
            "--without: there is no source `mains`"
        );
    }

    [Fact]
    public void Machine_ThatTheFormatRefuses_IsToldWithItsPlace()
    {
        Refused(
            [
                "machine",
                "M-01",
                "--title",
                "Machine",
                "--source",
                "Big-Spring title=Spring",
                "--source",
                "Big-Spring proof=slack",
            ],
            "/machines/0/sources/0/id"
        );
        Refused(["machine", "M-01", "--title", "Machine"], "--source is not given: what could move or hurt");
    }

    [Fact]
    public void Instrument_Entered_IsHeldAgainstTheLimits()
    {
        var outcome = Made(
            "instrument",
            "HG-01",
            "--kind",
            "height-gauge",
            "--resolution",
            "0.5 mm",
            "--uncertainty",
            "0.4 mm",
            "--measures",
            "height-of-cut"
        );

        Assert.Contains("SR0080", outcome.StandardOutput, StringComparison.Ordinal);
        Made(
            "instrument",
            "HG-02",
            "--like",
            "HG-01",
            "--resolution",
            "0.01 mm",
            "--uncertainty",
            "0.013 mm"
        );
        Made("instrument", "HG-01", "--change", "--resolution", "0.01 mm", "--uncertainty", "0.02 mm");
        Assert.Equal(
            ["HG-01 0.01 mm 0.02 mm height-of-cut", "HG-02 0.01 mm 0.013 mm height-of-cut"],
            Listed("instruments")
                .Select(one =>
                    $"{one!["id"]} {one["resolution"]} {one["expandedUncertainty"]} {one["measures"]![0]}"
                )
        );
    }

    [Fact]
    public void Instrument_WrongInEverything_IsToldAllOfIt()
    {
        Refused(
            ["instrument", "HG-01", "--kind", "ruler", "--resolution", "0.01"],
            "--kind: `ruler` is not known; accepted: feeler-gauge",
            "--resolution:",
            "--uncertainty is not given",
            "--measures is not given"
        );
        Refused(
            [
                "instrument",
                "HG-01",
                "--kind",
                "height-gauge",
                "--resolution",
                "0.01 mm",
                "--uncertainty",
                "13 mm",
                "--measures",
                "height-of-cut",
            ],
            "/instruments/0/expandedUncertainty"
        );
        Refused(
            ["instrument", "HG-01", "--like", "HG-07"],
            "there is no instrument `HG-07` in the register; accepted: there is no instrument yet"
        );
    }

    [Fact]
    public void Lock_Entered_LooksAsTheSitesDoAndIsSomebodys()
    {
        Made("lock", "L-11", "--owner", "tech-01");
        Made("lock", "T-11", "--owner", "tech-01", "--legend", "Do not start");
        Made("lock", "J-01");

        Assert.Equal(
            ["L-11 tech-01 red body ", "T-11 tech-01 red body True", "J-01  red body "],
            Listed("locks")
                .Select(one => $"{one!["id"]} {one["owner"]} {one["style"]} {one["tag"]}")
                .Select(line => line.Replace("true", "True", StringComparison.Ordinal))
        );
        Refused(
            ["lock", "L-11", "--owner", "tech-08"],
            "there is a lock or tag `L-11` already",
            "--owner: there is nobody `tech-08` in the register; accepted: lead-01, tech-01"
        );
    }

    [Fact]
    public void Procedure_OfAMachineThatWasReadUp_HasItsSourcesAndNoInspection()
    {
        Pedestrian("M-01");

        var outcome = Procedure("P-pedestrian-1", "--machine", "M-01");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("not stated, and told on each job", outcome.StandardOutput, StringComparison.Ordinal);
        var text = File.ReadAllText(
            Path.Combine(_rules, "site-prairie-links/procedures/P-pedestrian-1.json")
        );
        Assert.Contains("start tried, people clear", text, StringComparison.Ordinal);
        Assert.DoesNotContain("inspect", text, StringComparison.Ordinal);
        Assert.DoesNotContain("energisedTasks", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Procedure_OutOfWordsThatNobodyRead_IsRefused()
    {
        RideOn("M-01");
        var before = RulesCopy.Everything(_rules);

        var outcome = Procedure("P-ride-on-1", "--machine", "M-01", "--machine", "M-09");

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
        Assert.Equal(before, RulesCopy.Everything(_rules));
    }

    [Fact]
    public void Procedure_ForMachinesThatAreNotAlike_IsRefused()
    {
        Pedestrian("M-01");
        Made(
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

        var outcome = Procedure("P-1", "--machine", "M-01", "--machine", "M-02");

        Manners.HoldForRefusal(outcome);
        Assert.Contains(
            "`M-02` is registered with other sources",
            outcome.StandardError,
            StringComparison.Ordinal
        );
        Assert.Equal(0, Procedure("P-1", "--machine", "M-01").ExitCode);
        Manners.HoldForRefusal(Procedure("P-1", "--machine", "M-01"));
        var twice = Procedure("P-2", "--machine", "M-01");
        Manners.HoldForRefusal(twice);
        Assert.Contains("SR0070", twice.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Procedure_WhichControlsTheMachineHas_IsSaidAndNotSupposed() =>
        Refused(
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
        var file = Path.Combine(_rules, "site-prairie-links/site.json");
        var site = JsonNode.Parse(File.ReadAllBytes(file))!;
        var computed = site["zone"]!["transitions"]!.ToJsonString();
        site["zone"]!["dataVersion"] = "2001a";
        site["zone"]!["transitions"] = new JsonArray(
            new JsonObject { ["at"] = "2001-04-01T08:00:00Z", ["offsetMinutes"] = -300 },
            new JsonObject { ["at"] = "2001-10-28T07:00:00Z", ["offsetMinutes"] = -360 },
            new JsonObject { ["at"] = "2199-10-28T07:00:00Z", ["offsetMinutes"] = -300 }
        );
        File.WriteAllText(file, site.ToJsonString());

        var outcome = _product.Run("rules", "clock", "--zone-data", "later", "--rules", _rules);

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
