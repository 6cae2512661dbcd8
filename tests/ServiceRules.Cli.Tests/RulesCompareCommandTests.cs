using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class RulesCompareCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Shipped => ReferenceFiles.InRepository("rules");

    private string Records()
    {
        _product.Write(
            "records/a.json",
            Fixtures.Changed("height-check", ("\"3.81 mm\"", "\"3.87 mm\""), ("\"3.83 mm\"", "\"3.87 mm\""))
        );
        return _product.At("records");
    }

    /// <summary>The shipped rules with the height allowed 0.064 mm either way in place of 0.13 mm: 3.87 is then too near.</summary>
    private string Narrower()
    {
        foreach (var file in Directory.GetFiles(Shipped, "*.json", SearchOption.AllDirectories))
        {
            _product.Write(Path.Combine("new", Path.GetRelativePath(Shipped, file)), File.ReadAllBytes(file));
        }

        var sheet = _product.At("new/sheets/reel-125-9-510.sheet.json");
        File.WriteAllText(
            sheet,
            File.ReadAllText(sheet)
                .Replace(
                    "\"toleranceAboutTarget\": { \"governing\": \"0.005 in\", \"printed\": \"0.13 mm\" }",
                    "\"toleranceAboutTarget\": { \"governing\": \"0.0025 in\", \"printed\": \"0.064 mm\" }",
                    StringComparison.Ordinal
                )
        );
        return _product.At("new");
    }

    [Fact]
    public void Compare_SameFolder_EndsWithZero()
    {
        var outcome = _product.Run("rules", "compare", Shipped, Shipped, Records());

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("nothing is said differently", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "0 of 1 record would come out otherwise, 0 flips.",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Compare_NarrowerLimit_EndsWithOneAndTellsFlipCauseAndTotals()
    {
        var outcome = _product.Run("rules", "compare", Shipped, Narrower(), Records());

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.All(
            new[]
            {
                "limit changed: reel-125-9-510 height of cut: toleranceAboutTarget/governing 0.005 in -> 0.0025 in",
                "machine M-02, golf-greens: was may go out, would be HOLD",
                "Height on target (height-on-target): was in, would be NOT PROVEN (holds)",
                "because: limit changed (reel-125-9-510 height of cut:",
                "1 job: was may go out, would be HOLD",
                "By cause: limit changed",
                "By kind of unit: reel-125-9-510",
                "By gauge: HG-01",
                "By area: golf-greens",
            },
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Compare_FormatJson_IsALineForChangesEachRecordAndTotals()
    {
        var outcome = _product.Run("rules", "compare", Shipped, Narrower(), Records(), "--format", "json");

        var lines = outcome
            .StandardOutput.TrimEnd('\n')
            .Split('\n')
            .Select(line => JsonDocument.Parse(line))
            .ToList();
        Assert.Equal(3, lines.Count);
        Assert.Equal("limit", lines[0].RootElement.GetProperty("changes")[0].GetProperty("kind").GetString());
        var flip = lines[1].RootElement.GetProperty("flips")[0];
        Assert.Equal("height-on-target", flip.GetProperty("rule").GetString());
        Assert.Equal("met", flip.GetProperty("was").GetProperty("verdict").GetString());
        Assert.Equal("unproven", flip.GetProperty("wouldBe").GetProperty("verdict").GetString());
        Assert.Equal("limit", flip.GetProperty("causes")[0].GetProperty("kind").GetString());
        Assert.Equal(1, lines[2].RootElement.GetProperty("totals").GetProperty("changed").GetInt32());
    }

    [Fact]
    public void Compare_BadFileAmongGoodOnes_AnswersTheRestAndEndsWithTwo()
    {
        var folder = Records();
        var bad = _product.Write("records/bad.json", "{}"u8.ToArray());

        var outcome = _product.Run("rules", "compare", Shipped, Narrower(), folder);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains($"{bad}: line 1, column 1", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains(
            "1 of 1 record would come out otherwise",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Compare_RulesThatAreNotSound_SaysSo()
    {
        var folder = Narrower();
        _product.Write("new/base/pack.json", "{}"u8.ToArray());

        var outcome = _product.Run("rules", "compare", Shipped, folder, Records());

        Manners.HoldForRefusal(outcome);
        Assert.Contains("not fit to judge by", outcome.StandardError, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nowhere", "nowhere", "records")]
    [InlineData("home", "home", "records")]
    public void Compare_NoRules_EndsWithTwoAndSaysWhy(string old, string now, string records)
    {
        Records();

        Manners.HoldForRefusal(_product.Run("rules", "compare", old, now, records));
    }

    [Fact]
    public void Compare_NoRecord_EndsWithTwoAndSaysWhy() =>
        Manners.HoldForRefusal(_product.Run("rules", "compare", Shipped, Shipped, "home"));
}
