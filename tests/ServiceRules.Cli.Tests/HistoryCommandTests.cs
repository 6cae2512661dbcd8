using System.Text;
using ServiceRules.Application.History;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class HistoryCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>The same full service at other days, hours and diameters of its one reel.</summary>
    private string Records(params (string Day, string Hours, string Diameter)[] jobs)
    {
        const string job = """
            {
              "format": "service-record/1", "id": "J-{0}", "date": "{1}",
              "machine": { "id": "M-01", "area": "golf-greens", "hours": "{2}" },
              "tasks": ["inspect"], "people": [{ "id": "tech-01", "role": "performs" }],
              "instruments": [{ "id": "DT-01", "kind": "diameter-tape", "resolution": "0.02 mm",
                "calibration": { "date": "2020-01-01", "due": "2040-01-01", "expandedUncertainty": "0.04 mm", "coverageFactor": 2 } }],
              "units": [{ "id": "U-01-1", "reel": "R-1", "position": 1, "sheet": "reel-125-9-510",
                "entries": [{ "read": "reel-diameter", "value": "{3}", "with": "DT-01" }] }]
            }
            """;
        foreach (var (day, hours, diameter) in jobs)
        {
            var text = job.Replace("{0}", day, StringComparison.Ordinal)
                .Replace("{1}", day, StringComparison.Ordinal)
                .Replace("{2}", hours, StringComparison.Ordinal)
                .Replace("{3}", diameter, StringComparison.Ordinal);
            _product.Write($"records/{day}.json", Encoding.UTF8.GetBytes(text));
        }

        return _product.At("records");
    }

    private string Wearing() =>
        Records(
            ("2026-01-05", "0 h", "118.00 mm"),
            ("2026-02-02", "100 h", "117.00 mm"),
            ("2026-03-02", "200 h", "116.00 mm"),
            ("2026-03-30", "300 h", "115.00 mm")
        );

    [Fact]
    public void History_LimitComing_LeadsWithTheDayAndEndsWithZero()
    {
        var outcome = _product.Run("history", Wearing());

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var lines = outcome.StandardOutput.Split('\n');
        var action =
            Array.FindIndex(lines, line => line.StartsWith("Needs action", StringComparison.Ordinal)) + 1;
        // 1 mm left at 10 mm in 1000 h and 25 h a week: four weeks after the last record.
        Assert.StartsWith("  2026-04-27  U-01-1 (M-01)", lines[action], StringComparison.Ordinal);
        Assert.Contains(
            "115.00 mm on 2026-03-30, limit 114.00 mm: 1.00 mm left",
            lines[action],
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Theil-Sen, 4 readings): 10.00 mm in 1000 h",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("25 h a week", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void History_PastItsLimit_SaysNowAndEndsWithOne()
    {
        var outcome = _product.Run("history", Records(("2026-01-05", "0 h", "113.50 mm")));

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains(
            "PAST its limit of 114.00 mm by 0.50 mm",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("Replace the reel.", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void History_TooFewReadings_SaysSo()
    {
        var outcome = _product.Run(
            "history",
            Records(("2026-01-05", "0 h", "124.00 mm"), ("2026-02-02", "100 h", "123.90 mm"))
        );

        Assert.Contains(
            "No forecast: read at 2 different hours, 3 are needed",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void History_FormatJson_IsOneDocumentThatReadsBack()
    {
        var outcome = _product.Run("history", "--format", "json", "--unit", "U-01-1", Wearing());

        Manners.Hold(outcome);
        var bytes = Encoding.UTF8.GetBytes(outcome.StandardOutput);
        Assert.True(
            HistoryFormat.Current.Read(bytes).TryGet(out var read, out var problems),
            problems.ToString()
        );
        var size = Assert.Single(Assert.Single(read.Units).Sizes);
        Assert.Equal(-0.01m, size.Robust!.Rate.MillimetresPerHour);
        Assert.Equal(new DateOnly(2026, 4, 27), size.Robust.On);
    }

    [Fact]
    public void History_BadFileAmongGoodOnes_AnswersTheRestAndEndsWithTwo()
    {
        var folder = Wearing();
        var bad = _product.Write("records/bad.json", "{}"u8.ToArray());

        var outcome = _product.Run("history", folder);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains($"{bad}: line 1, column 1", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("U-01-1", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("history")]
    [InlineData("history", "nothing-here")]
    [InlineData("history", "home")]
    [InlineData("history", "records", "--unit", "U-99-9")]
    [InlineData("history", "records", "--grind-every", "often")]
    [InlineData("history", "records", "--grind-every", "0 h")]
    [InlineData("history", "records", "--format", "xml")]
    public void History_UnusableInput_EndsWithTwoAndSaysWhy(params string[] arguments)
    {
        Wearing();

        Manners.HoldForRefusal(_product.Run(arguments));
    }

    [Fact]
    public void History_OtherLanguageAndTimeZone_GivesTheSameBytes()
    {
        var folder = Wearing();
        var here = _product.Run("history", folder);
        _product.With("LC_ALL", "tr_TR.UTF-8").With("LANG", "tr_TR.UTF-8").With("TZ", "Pacific/Auckland");

        Assert.Equal(here.StandardOutput, _product.Run("history", folder).StandardOutput);
    }
}
