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
                "calibration": { "date": "2026-01-01", "due": "2027-01-01", "expandedUncertainty": "0.04 mm", "coverageFactor": 2 } }],
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

    /// <summary>
    /// x 0, 100, 200, 300 and y 118.00, 117.10, 115.90, 115.00 by hand: b = -0.0102, residuals ∓0.03, ±0.09, s = 0.09487 on 2;
    /// at 300 h 114.97 ± 4.3027 · 0.09487 · √(1 + 1/4 + 150²/50000) = ± 0.5322.
    /// </summary>
    [Fact]
    public void History_LineThroughReadings_SaysWhatToExpectNext()
    {
        var outcome = _product.Run(
            "history",
            Records(
                ("2026-01-05", "0 h", "118.00 mm"),
                ("2026-02-02", "100 h", "117.10 mm"),
                ("2026-03-02", "200 h", "115.90 mm"),
                ("2026-03-30", "300 h", "115.00 mm")
            )
        );

        // 114.97 ± 4.30265·√0.009·√1.7 = 114.43779 to 115.50221, rounded outward.
        Assert.Contains(
            "A next reading at 300 h is to be expected between 114.43 mm and 115.51 mm at 95 %",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("; band of 92 % from", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void History_TakenUpFastByBothMeasures_TellsBothAndItsUnitOnce()
    {
        // One step in 100 h three times, ground, then five in 100 h; the neighbours one each time.
        foreach (
            var (day, hours, own, others) in new[]
            {
                ("2026-01-05", 0, 1, 1),
                ("2026-02-02", 100, 1, 1),
                ("2026-03-02", 200, 1, 1),
                ("2026-03-30", 300, 1, 1),
                ("2026-04-06", 301, 0, 1),
                ("2026-05-04", 401, 5, 1),
            }
        )
        {
            string Unit(int position, int steps) =>
                $$"""
                { "id": "U-01-{{position}}", "reel": "R-{{position}}", "position": {{position}}, "sheet": "reel-125-9-510",
                  "entries": [{{(
                    steps == 0
                        ? "{ \"grind\": \"reel-spin\" }"
                        : $"{{ \"turn\": \"clearance\", \"side\": \"both\", \"direction\": \"close\", \"steps\": {steps} }}"
                )}}] }
                """;
            _product.Write(
                $"records/{day}.json",
                Encoding.UTF8.GetBytes(
                    $$"""
                    {
                      "format": "service-record/1", "id": "J-{{day}}", "date": "{{day}}",
                      "machine": { "id": "M-01", "area": "golf-greens", "hours": "{{hours}} h" },
                      "tasks": ["inspect"], "people": [{ "id": "tech-01", "role": "performs" }],
                      "units": [{{Unit(1, own)}}, {{Unit(2, others)}}, {{Unit(3, others)}}]
                    }
                    """
                )
            );
        }

        var outcome = _product.Run("history", _product.At("records"));

        Assert.Contains(
            "U-01-1 (M-01)  Taken up by 5 steps",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "5 times its own usual rate and 4 times the rate of its neighbours",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    /// <summary>Twelve gaps about 1.44 mm with limits of about 1.28 to 1.91 mm: some close to the lower one.</summary>
    [Fact]
    public void History_WhatTheShopLeaves_SaysWhatIsHeldBackThoughGood()
    {
        string[] gaps =
        [
            "1.30",
            "1.42",
            "1.35",
            "1.50",
            "1.44",
            "1.38",
            "1.61",
            "1.29",
            "1.47",
            "1.40",
            "1.36",
            "1.55",
        ];
        for (var index = 0; index < gaps.Length; index++)
        {
            var day = FormattableString.Invariant($"2026-01-{index + 1:00}");
            _product.Write(
                $"records/{day}.json",
                Encoding.UTF8.GetBytes(
                    $$"""
                    {
                      "format": "service-record/1", "id": "J-{{day}}", "date": "{{day}}",
                      "machine": { "id": "M-01", "area": "golf-greens", "hours": "{{index + 1}}0 h" },
                      "tasks": ["full-service"], "people": [{ "id": "tech-01", "role": "performs" }],
                      "instruments": [{ "id": "CL-09", "kind": "calliper", "resolution": "0.01 mm",
                        "calibration": { "date": "2026-01-01", "due": "2027-01-01", "expandedUncertainty": "0.02 mm", "coverageFactor": 2 } }],
                      "units": [{ "id": "U-01-1", "reel": "R-1", "position": 1, "sheet": "reel-125-9-510", "attachments": ["shield"],
                        "entries": [{ "turn": "shield", "side": "both", "amount": "not-stated" },
                          { "read": "shield-gap", "station": "left", "value": "{{gaps[
                        index
                    ]}} mm", "with": "CL-09" },
                          { "read": "shield-gap", "station": "right", "value": "{{gaps[
                        index
                    ]}} mm", "with": "CL-09" }] }]
                    }
                    """
                )
            );
        }

        var outcome = _product.Run("history", _product.At("records"));

        Assert.Contains("Of a thousand passed, ", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("of a thousand left, about ", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "are held back though good; both are stated rather too high",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
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
