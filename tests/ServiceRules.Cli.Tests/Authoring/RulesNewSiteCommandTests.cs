using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>The folder of a shop of one's own is sound at once and has nothing of another shop in it, or is not there at all.</summary>
public sealed class RulesNewSiteCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Shop => _product.At("shop");

    private ProductOutcome Site(params string[] more) =>
        _product.Run(["rules", "new", "site", "Prairie Links", "--to", Shop, .. more]);

    private ProductOutcome Sound(params string[] more) =>
        Site(["--time-zone", "America/Chicago", "--lead", "lead-01", "--technician", "tech-01", .. more]);

    private JsonNode Read(string name) =>
        JsonNode.Parse(File.ReadAllBytes(Path.Combine(Shop, "site-prairie-links", name)))!;

    private const UnixFileMode Mine =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    [Fact]
    public void Site_Made_IsSoundAndItsCasesComeOutAsTheySay()
    {
        var outcome = Sound("--jurisdiction", "us-29-cfr-1910-147", "--officer", "officer-01");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var check = _product.Run("rules", "check", "--rules", Shop);
        Assert.True(check.ExitCode == 0, check.ToString());
        Assert.Contains("3 limit sheets", check.StandardOutput, StringComparison.Ordinal);
        var test = _product.Run("rules", "test", "--rule", "height-on-target", "--rules", Shop);
        Assert.True(test.ExitCode == 0, test.ToString());
        var format = _product.Run("rules", "format", Shop, "--check");
        Assert.True(format.ExitCode == 0, format.ToString());
        Assert.Equal("us-29-cfr-1910-147", (string?)Read("site.json")["jurisdictions"]![0]);
    }

    [Fact]
    public void Site_Made_HasItsPeopleAndNothingOfTheExampleShop()
    {
        Assert.Equal(0, Sound("--officer", "officer-01", "--operator", "op-01").ExitCode);

        var registers = Read("registers.json");
        Assert.Equal(
            ["lead-01 True True", "tech-01 True ", "officer-01 False True", "op-01 False "],
            registers["people"]!
                .AsArray()
                .Select(one => $"{one!["id"]} {(bool)one["authorised"]!} {(bool?)one["mayRelease"]}")
        );
        Assert.Equal(["$schema", "format", "people"], registers.AsObject().Select(member => member.Key));
        Assert.All(
            Directory.GetFiles(Shop, "*", SearchOption.AllDirectories),
            file =>
                Assert.DoesNotContain(
                    "Alder Reach",
                    File.ReadAllText(file) + file,
                    StringComparison.OrdinalIgnoreCase
                )
        );
        Assert.DoesNotContain(
            Directory.GetDirectories(Shop, "*", SearchOption.AllDirectories),
            folder => Path.GetFileName(folder) is "procedures" or "setting-orders" or "site-alder-reach"
        );
    }

    /// <summary>15 U.S.C. 260a: clocks go forward on the second Sunday of March and back on the first of November, at two.</summary>
    [Fact]
    public void Clock_OfAmericaChicago_IsMovedOnTheDaysOfTheLaw()
    {
        Assert.Equal(0, Sound().ExitCode);

        var zone = Read("site.json")["zone"]!;
        Assert.Equal("America/Chicago", (string?)zone["name"]);
        Assert.Equal(-360, (int)zone["firstOffsetMinutes"]!);
        var moves = zone["transitions"]!
            .AsArray()
            .Select(move => $"{move!["at"]} {move["offsetMinutes"]}")
            .ToList();
        Assert.Contains("2027-03-14T08:00:00Z -300", moves);
        Assert.Contains("2027-11-07T07:00:00Z -360", moves);
        Assert.Contains("2028-03-12T08:00:00Z -300", moves);
    }

    [Fact]
    public void Everything_ThatIsWrong_IsToldAtOnceAndNothingIsThere()
    {
        _product.Write("shop/notes.txt", "kept"u8.ToArray());

        var outcome = Site(
            "--time-zone",
            "America/Chicagoo",
            "--technician",
            "tech-01",
            "--operator",
            "tech-01",
            "--officer",
            "Jane Doe",
            "--jurisdiction",
            "us"
        );

        Manners.HoldForRefusal(outcome);
        Assert.All(
            new[]
            {
                "there is no time zone `America/Chicagoo`; accepted: `America/Chicago`",
                "--lead is not given",
                "`tech-01` is named 2 times, as --technician and --operator",
                "--officer: `Jane Doe` is no identity",
                "there is no pack of a jurisdiction `us`; accepted: au-wa-whs-2022",
                "shop` is there and not empty",
                "nothing was written to",
            },
            told => Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal)
        );
        Assert.Equal(["notes.txt"], Directory.GetFileSystemEntries(Shop).Select(Path.GetFileName));
        Assert.Equal(["shop"], Beside());
    }

    [Theory]
    [InlineData("../../etc/passwd")]
    [InlineData("/etc/localtime")]
    [InlineData("tzdata.zi")]
    [InlineData("Mars/Olympus")]
    public void Zone_ThatIsNone_IsRefused(string zone)
    {
        var outcome = Site("--time-zone", zone, "--lead", "lead-01");

        Manners.HoldForRefusal(outcome);
        Assert.Contains($"there is no time zone `{zone}`", outcome.StandardError, StringComparison.Ordinal);
        Assert.Empty(Beside());
    }

    [Theory]
    [InlineData("Alder Reach Parks Trust", "is the site in")]
    [InlineData("  ", "empty")]
    public void Name_ThatCannotBe_IsRefused(string name, string told)
    {
        var outcome = _product.Run(
            "rules",
            "new",
            "site",
            name,
            "--to",
            Shop,
            "--time-zone",
            "UTC",
            "--lead",
            "lead-01"
        );

        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.Empty(Beside());
    }

    [Fact]
    public void Folder_ThatIsEmpty_IsTaken()
    {
        Directory.CreateDirectory(Shop);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(Shop, Mine);
        }

        var outcome = Site("--time-zone", "UTC", "--lead", "lead-01");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.DoesNotContain(
            Directory.EnumerateFileSystemEntries(Shop),
            entry => Path.GetFileName(entry).StartsWith('.')
        );
        if (!OperatingSystem.IsWindows())
        {
            // It is the one that was there.
            Assert.Equal(Mine, File.GetUnixFileMode(Shop));
        }

        Assert.Null(Read("site.json")["zone"]!["transitions"]);
        Assert.Equal(["shop"], Beside());
    }

    [Fact]
    public void Folder_WithinTheRulesThatAreCopied_IsRefused()
    {
        var rules = RulesCopy.In(_product);
        var before = RulesCopy.Everything(rules);

        var outcome = _product.Run(
            "rules",
            "new",
            "site",
            "Prairie Links",
            "--to",
            Path.Combine(rules, "shop"),
            "--time-zone",
            "UTC",
            "--lead",
            "lead-01",
            "--rules",
            rules
        );

        Manners.HoldForRefusal(outcome);
        Assert.Contains("lies in the folder that is copied", outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, RulesCopy.Everything(rules));
    }

    private IEnumerable<string?> Beside() =>
        Directory
            .GetFileSystemEntries(_product.Folder)
            .Select(Path.GetFileName)
            .Where(name => name!.StartsWith("shop", StringComparison.Ordinal));
}
