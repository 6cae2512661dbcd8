namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>What is entered in the registers by command is sound and canonical there, or nothing was touched.</summary>
public sealed class RulesNewEntryCommandTests : IDisposable
{
    private readonly OwnShop _shop = new();

    public void Dispose() => _shop.Dispose();

    [Fact]
    public void Person_Entered_MayWhatTheRoleMay()
    {
        var outcome = _shop.Made("person", "tech-02", "--role", "technician", "--trained-on", "2026-01-20");

        Assert.Contains("tech-02: authorised", outcome.StandardOutput, StringComparison.Ordinal);
        var entry = _shop.Listed("people")[2]!;
        Assert.Equal("tech-02", (string?)entry["id"]);
        Assert.True((bool)entry["authorised"]!);
        Assert.Null(entry["mayRelease"]);
        Assert.Equal("2026-01-20", (string?)entry["trainedOn"]);
    }

    [Fact]
    public void Person_Changed_KeepsWhatIsNotGiven()
    {
        _shop.Made(
            "person",
            "lead-01",
            "--change",
            "--trained-on",
            "2026-01-20",
            "--trained-until",
            "2027-01-20"
        );
        _shop.Made("person", "lead-01", "--change", "--trained-until", "2028-01-20", "--covers", "gravity");

        var entry = _shop.Listed("people")[0]!;
        Assert.Equal("2026-01-20", (string?)entry["trainedOn"]);
        Assert.Equal("2028-01-20", (string?)entry["trainedUntil"]);
        Assert.True((bool)entry["mayRelease"]!);
        Assert.Equal("gravity", (string?)entry["covers"]![0]);
    }

    [Fact]
    public void Person_WrongInEverything_IsToldAllOfItWithItsPlace() =>
        _shop.Refused(
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
        _shop.Refused(
            ["person", "tech-09", "--change", "--left", "2026-01-01"],
            "there is no person `tech-09` to change; accepted: lead-01, tech-01"
        );
        _shop.Refused(
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
        _shop.Refused(["person", "tech-01", "--change"], "nothing is given to change");
    }

    [Fact]
    public void Machine_LikeAnExample_IsMarkedUntilItsManualWasRead()
    {
        var outcome = _shop.RideOn("M-01");

        Assert.All(
            new[]
            {
                "words of an example, not yet read in this machine's own manual: engine_start, hydraulic, gravity",
                "no written procedure covers M-01",
            },
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
        var machine = _shop.Listed("machines")[0]!;
        Assert.Equal(3, (int)machine["units"]!);
        Assert.All(
            machine["sources"]!.AsArray(),
            source => Assert.StartsWith(OwnShop.Mark, (string?)source!["proof"], StringComparison.Ordinal)
        );

        _shop.Made(
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
        var sources = _shop.Listed("machines")[0]!["sources"]!.AsArray();
        Assert.Equal(["engine_start", "gravity"], sources.Select(source => (string?)source!["id"]));
        // How it is proven rests on a device that nobody has looked up yet.
        Assert.Equal($"{OwnShop.Mark}: start tried", (string?)sources[0]!["proof"]);
        Assert.Equal("unit rests", (string?)sources[1]!["proof"]);
    }

    [Fact]
    public void Machine_LikeOneOfTheShop_HasItsSources()
    {
        _shop.Pedestrian("M-01");
        _shop.Made("machine", "M-02", "--title", "Pedestrian machine, M-02", "--like", "M-01");

        var machines = _shop.Listed("machines");
        Assert.Equal(machines[0]!["sources"]!.ToJsonString(), machines[1]!["sources"]!.ToJsonString());
        Assert.DoesNotContain(OwnShop.Mark, machines.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Machine_WrongInEverything_IsToldAllOfIt()
    {
        _shop.Pedestrian("M-01");
        _shop.Refused(
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
        _shop.Refused(
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
        _shop.Refused(
            ["machine", "M-01", "--title", "Machine"],
            "--source is not given: what could move or hurt"
        );
    }

    [Fact]
    public void Instrument_Entered_IsHeldAgainstTheLimits()
    {
        var outcome = _shop.Made(
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
        _shop.Made(
            "instrument",
            "HG-02",
            "--like",
            "HG-01",
            "--resolution",
            "0.01 mm",
            "--uncertainty",
            "0.013 mm"
        );
        _shop.Made("instrument", "HG-01", "--change", "--resolution", "0.01 mm", "--uncertainty", "0.02 mm");
        Assert.Equal(
            ["HG-01 0.01 mm 0.02 mm height-of-cut", "HG-02 0.01 mm 0.013 mm height-of-cut"],
            _shop
                .Listed("instruments")
                .Select(one =>
                    $"{one!["id"]} {one["resolution"]} {one["expandedUncertainty"]} {one["measures"]![0]}"
                )
        );
    }

    [Fact]
    public void Instrument_WrongInEverything_IsToldAllOfIt()
    {
        _shop.Refused(
            ["instrument", "HG-01", "--kind", "ruler", "--resolution", "0.01"],
            "--kind: `ruler` is not known; accepted: feeler-gauge",
            "--resolution:",
            "--uncertainty is not given",
            "--measures is not given"
        );
        _shop.Refused(
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
        _shop.Refused(
            ["instrument", "HG-01", "--like", "HG-07"],
            "there is no instrument `HG-07` in the register; accepted: there is no instrument yet"
        );
    }

    [Fact]
    public void Lock_Entered_LooksAsTheSitesDoAndIsSomebodys()
    {
        _shop.Made("lock", "L-11", "--owner", "tech-01");
        _shop.Made("lock", "T-11", "--owner", "tech-01", "--legend", "Do not start");
        _shop.Made("lock", "J-01");

        Assert.Equal(
            ["L-11 tech-01 red body ", "T-11 tech-01 red body True", "J-01  red body "],
            _shop
                .Listed("locks")
                .Select(one => $"{one!["id"]} {one["owner"]} {one["style"]} {one["tag"]}")
                .Select(line => line.Replace("true", "True", StringComparison.Ordinal))
        );
        _shop.Refused(
            ["lock", "L-11", "--owner", "tech-08"],
            "there is a lock or tag `L-11` already",
            "--owner: there is nobody `tech-08` in the register; accepted: lead-01, tech-01"
        );
    }

    [Fact]
    public void Entry_WithoutSayingInWhichShop_GoesIntoNone()
    {
        var outcome = _shop.Run("rules", "new", "person", "tech-09", "--role", "technician");

        Manners.HoldForRefusal(outcome);
        Assert.Contains(
            "--rules is not given: in which shop",
            outcome.StandardError,
            StringComparison.Ordinal
        );
    }
}
