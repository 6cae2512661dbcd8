using System.Globalization;
using System.Text.Json;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class SoundConditionCheckTests
{
    private static readonly Check Bearings = new Check.SoundCondition(MeasuredQuantity.BearingPlay);

    [Fact]
    public void Evaluate_ConditionSeen_DecidesByWhatStandsLast()
    {
        var sound = Judge(Bearings, Seen(MeasuredQuantity.BearingPlay, Condition.Sound));
        var faulty = Judge(Bearings, Seen(MeasuredQuantity.BearingPlay, Condition.Faulty));
        var putRight = Judge(
            Bearings,
            Seen(MeasuredQuantity.BearingPlay, Condition.Faulty),
            new PartFitted { Part = PartKind.ReelBearing },
            Seen(MeasuredQuantity.BearingPlay, Condition.Sound)
        );
        var seenTwoWays = Judge(
            Bearings,
            Seen(MeasuredQuantity.BearingPlay, Condition.Faulty),
            Seen(MeasuredQuantity.BearingPlay, Condition.Sound)
        );

        Assert.Equal(Verdict.Met, sound.Verdict);
        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (faulty.Verdict, faulty.Reason));
        Assert.Equal(Verdict.Met, putRight.Verdict);
        Assert.Equal(FindingReason.Conflicting, seenTwoWays.Reason);
        Assert.Equal(FindingReason.NotMeasured, Judge(Bearings).Reason);
    }

    [Theory]
    [InlineData(PaperResult.Cuts, Verdict.Met)]
    [InlineData(PaperResult.Nips, Verdict.NotMet)]
    [InlineData(PaperResult.Misses, Verdict.NotMet)]
    public void Evaluate_EdgeTriedByPaper_IsSoundWhereItCuts(PaperResult result, Verdict verdict)
    {
        var paper = new Reading
        {
            Quantity = MeasuredQuantity.Edge,
            Blade = 3,
            Observed = new Observation.Paper(result),
        };

        Assert.Equal(verdict, Judge(new Check.SoundCondition(MeasuredQuantity.Edge), paper).Verdict);
    }

    [Fact]
    public void Evaluate_OnePlaceVoidBesideASoundOne_IsUnprovenUntilLookedAtAgain()
    {
        var left = Seen(MeasuredQuantity.BearingPlay, Condition.Sound) with
        {
            Station = new Station.Named(StationName.Left),
        };
        var right = left with { Station = new Station.Named(StationName.Right) };
        var bearing = new PartFitted { Part = PartKind.ReelBearing };

        var oneVoid = Judge(Bearings, left, bearing, right);

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (oneVoid.Verdict, oneVoid.Reason));
        Assert.Equal(Verdict.Met, Judge(Bearings, left, bearing, right, left).Verdict);
        Assert.Equal(
            Verdict.Met,
            Judge(Bearings, left, bearing, Seen(MeasuredQuantity.BearingPlay, Condition.Sound)).Verdict
        );
    }

    // Rows are blades 1 to 3, columns left, middle and right; x fails, . cuts, _ was not tried.
    [Theory]
    [InlineData(
        "... xxx ...",
        "blade 2 fails at every station tried, and others cut there: that blade is bent, nicked or dull"
    )]
    [InlineData(
        "xxx ... xxx",
        "blades 1 and 3 fail at every station tried, and others cut there: those blades are"
    )]
    [InlineData(
        ".x. .x. .x.",
        "every blade tried fails at the middle and cuts elsewhere: the bedknife is at fault there"
    )]
    [InlineData(
        "x.x x.x x.x",
        "every blade tried fails at the left end and the right end and cuts elsewhere"
    )]
    [InlineData("x.. ... ...", "not told whether blade or bedknife")]
    [InlineData(".x. xxx .x.", "blades and stations are mixed")]
    [InlineData(
        "xxx xxx xxx",
        "no blade cuts at any station tried: every edge is dull, or the gap is too wide to cut paper"
    )]
    [InlineData("xxx ___ ___", "one blade alone was tried, so that it is not told whether blade or bedknife")]
    [InlineData(
        "x__ x__ x__",
        "one station alone was tried, so that it is not told whether blade or bedknife"
    )]
    [InlineData("x__ ___ ___", "one strip alone was tried, so that it is not told whether blade or bedknife")]
    // Only the failing blade was tried at two of its stations: the bedknife may be at fault there.
    [InlineData("x_x _._ ___", "not told whether blade or bedknife")]
    [InlineData("x__ x__ __.", "not told whether blade or bedknife")]
    [InlineData("_x_ _._ ___", "not told whether blade or bedknife")]
    public void Evaluate_PaperByBladeAndStation_SaysBladeOrBedknife(string map, string told)
    {
        string[] stations = ["left", "middle", "right"];
        var strips =
            from blade in Enumerable.Range(0, 3)
            from station in Enumerable.Range(0, 3)
            let mark = map[(4 * blade) + station]
            where mark != '_'
            select (BenchEntry)Strip(
                mark == 'x' ? PaperResult.Nips : PaperResult.Cuts,
                blade + 1,
                stations[station]
            );

        var outcome = Judge(new Check.SoundCondition(MeasuredQuantity.Edge), [.. strips]);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(told, Assert.Single(outcome.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_PaperWithoutBladeAndStation_AsksForBoth()
    {
        var outcome = Judge(
            new Check.SoundCondition(MeasuredQuantity.Edge),
            Strip(PaperResult.Cuts, 1, "left"),
            Strip(PaperResult.Misses, 2, null)
        );

        Assert.Equal(
            "whether blade or bedknife is not told without both named: try every blade at left, middle and right",
            Assert.Single(outcome.Notices)
        );
    }

    [Fact]
    public void Evaluate_PaperCutsEverywhere_TellsNoMap() =>
        Assert.Empty(
            Judge(new Check.SoundCondition(MeasuredQuantity.Edge), Strip(PaperResult.Cuts, 1, "left")).Notices
        );

    /// <summary>Outside values: turf/formulas.json, F38: copy paper is about 0.004 in thick.</summary>
    [Fact]
    public void Evaluate_PaperMap_SaysHowThickPaperIs()
    {
        using var formulas = JsonDocument.Parse(ReferenceFiles.ReadText("turf", "formulas.json"));
        var result = formulas
            .RootElement.GetProperty("formulas")
            .EnumerateArray()
            .Single(formula => formula.GetProperty("id").GetString() == "F38")
            .GetProperty("worked_example")
            .GetProperty("result");
        var outcome = Judge(
            new Check.SoundCondition(MeasuredQuantity.Edge),
            Strip(PaperResult.Misses, 1, "left")
        );

        var thick = decimal.Round(result.GetProperty("paper_mm").GetDecimal(), 1);
        Assert.Contains(
            string.Create(CultureInfo.InvariantCulture, $"about {thick:0.00} mm thick"),
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    private static Reading Strip(PaperResult result, int blade, string? station) =>
        new()
        {
            Quantity = MeasuredQuantity.Edge,
            Blade = blade,
            Station = station switch
            {
                null => null,
                "left" => new Station.Named(StationName.Left),
                "middle" => new Station.Named(StationName.Middle),
                _ => new Station.Named(StationName.Right),
            },
            Observed = new Observation.Paper(result),
        };

    [Theory]
    [InlineData(2, 0, "put blade 2 right: straighten, or grind the reel; then try paper there again")]
    [InlineData(
        0,
        1,
        "put the bedknife right at the middle: grind or replace it; then try every blade there again"
    )]
    [InlineData(1, 1, "Do something about it.")]
    public void Evaluate_PaperTellsWhoIsAtFault_SaysWhatToPutRight(int blade, int column, string act)
    {
        string[] stations = ["left", "middle", "right"];
        var strips =
            from each in new[] { 1, 2 }
            from station in Enumerable.Range(0, 3)
            let fails = each == blade || (column == station && blade != 2)
            select (BenchEntry)Strip(fails ? PaperResult.Misses : PaperResult.Cuts, each, stations[station]);

        var outcome = Judge(new Check.SoundCondition(MeasuredQuantity.Edge), [.. strips]);

        Assert.Equal(new Remedy.Act(act), outcome.Remedy);
    }
}
