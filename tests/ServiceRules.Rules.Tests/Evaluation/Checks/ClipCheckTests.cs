using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Nine blades: 6 km/h and 2200 rev/min clip every 100 000/19 800 = 5.0505 mm, 4 km/h every 3.3670 mm.</summary>
public class ClipCheckTests
{
    private static readonly Check AtMostTheHeight = new Check.Clip(1m);

    private static readonly BenchEntry[] FourMillimetres =
    [
        Height("left", "4.00 mm"),
        Height("right", "4.00 mm"),
    ];

    [Fact]
    public void Evaluate_ClipWiderThanTheHeight_SaysRibbingAndWhatKeepsIt()
    {
        var outcome = Judge(AtMostTheHeight, Tried(new(Kmh("6"), Rpm("2200"), null, null), FourMillimetres));

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Clip: at 6 km/h and 2200 rev/min 9 blades clip every 5.05 mm (198 cuts in a metre), more than the height, left (51 mm) 4.000 mm "
                + "± 0.014 mm: ribbing is likely",
            outcome.Statement
        );
        Assert.Equal(
            [
                // Sure of the height are 4.0 - 0.013013 = 3.986987 mm: x 19 800 / 16 666.667 = 4.736 km/h; 100 000 / (9 x 3.986987) = 2786.9
                // rev/min; 100 000 / (2200 x 3.986987) = 11.4 blades.
                "4.7 km/h is the most that keeps the clip, or 2787 rev/min the least, or a reel of 12 blades (derived)",
                // sqrt(16 + 25.508) - 4 = 2.4426.
                "ribs may stand up to 2.44 mm above the cut (derived, an upper bound: use it to compare settings)",
            ],
            outcome.Notices.AsEnumerable()
        );
        Assert.Equal(new Remedy.Act("Do something about it."), outcome.Remedy);
        Assert.Empty(outcome.Comparisons);
        Assert.Contains("/machine/tested", outcome.Evidence);
    }

    /// <summary>
    /// 3.79 mm at 4.6 km/h: 3.79 x 19 800 / 16 666.667 = 4.5025 km/h, but sure are 3.776987 mm alone, 4.487 km/h. Each figure that is
    /// told, tried in place of what was out, is in.
    /// </summary>
    [Theory]
    [InlineData("4.4", "2200", Verdict.Met)]
    [InlineData("4.5", "2200", Verdict.Unproven)]
    [InlineData("4.6", "2256", Verdict.Met)]
    [InlineData("4.6", "2255", Verdict.Unproven)]
    public void Evaluate_WhatKeepsTheClip_IsItselfMet(string kmh, string rpm, Verdict verdict)
    {
        BenchEntry[] heights = [Height("left", "3.79 mm"), Height("right", "3.79 mm")];

        var told = Judge(AtMostTheHeight, Tried(new(Kmh("4.6"), Rpm("2200"), null, null), heights)).Notices[
            0
        ];
        var then = Judge(AtMostTheHeight, Tried(new(Kmh(kmh), Rpm(rpm), null, null), heights));

        Assert.StartsWith(
            "4.4 km/h is the most that keeps the clip, or 2256 rev/min the least",
            told,
            StringComparison.Ordinal
        );
        Assert.Equal(verdict, then.Verdict);
    }

    [Fact]
    public void Evaluate_ClipWithinTheHeight_IsIn()
    {
        var outcome = Judge(AtMostTheHeight, Tried(new(Kmh("4"), Rpm("2200"), null, null), FourMillimetres));

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "Clip: at 4 km/h and 2200 rev/min 9 blades clip every 3.37 mm (297 cuts in a metre), no more than the height, left (51 mm) 4.000 mm "
                + "± 0.014 mm: in",
            outcome.Statement
        );
        Assert.Empty(outcome.Notices);
    }

    // U of the gauge is 0.013013 mm: a spacing of 3.367003 mm is proven from 3.380016 mm on and breached below 3.353990 mm.
    [Theory]
    [InlineData("3.381 mm", Verdict.Met)]
    [InlineData("3.380 mm", Verdict.Unproven)]
    [InlineData("3.354 mm", Verdict.Unproven)]
    [InlineData("3.353 mm", Verdict.NotMet)]
    public void Evaluate_HeightNearTheClip_CarriesItsUncertainty(string height, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(
                AtMostTheHeight,
                Tried(
                    new(Kmh("4"), Rpm("2200"), null, null),
                    Height("left", height),
                    Height("right", "4.00 mm")
                )
            ).Verdict
        );

    [Theory]
    [InlineData("0.8", Verdict.NotMet)]
    [InlineData("0.9", Verdict.Met)]
    public void Evaluate_OtherRatio_AsksForAnotherHeight(string ratio, Verdict verdict)
    {
        var check = new Check.Clip(decimal.Parse(ratio, System.Globalization.CultureInfo.InvariantCulture));

        var outcome = Judge(check, Tried(new(Kmh("4"), Rpm("2200"), null, null), FourMillimetres));

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains($"{ratio} times the height", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_SpeedsOfTheOrder_CountUntilTheMachineWasTried()
    {
        var frame = Frame(FourMillimetres);
        var ordered = Ordered(frame, new AreaMowing("golf-greens", null, Kmh("4"), Rpm("2200")));
        var tried = ordered with { Record = Tried(new(Kmh("6"), null, null, null), FourMillimetres).Record };

        Assert.Equal(Verdict.Met, Judge(AtMostTheHeight, ordered).Verdict);
        Assert.Equal(Verdict.NotMet, Judge(AtMostTheHeight, tried).Verdict);
    }

    [Fact]
    public void Build_SpeedsForTheSheet_WinOverThoseOfTheArea()
    {
        var frame = Ordered(
            Frame(FourMillimetres),
            new AreaMowing("golf-greens", null, Kmh("6"), Rpm("2200")),
            new AreaMowing("golf-tees", "sheet-a", Kmh("8"), Rpm("2200")),
            new AreaMowing("golf-greens", "sheet-a", Kmh("4"), Rpm("2200"))
        );

        Assert.Equal(Kmh("4"), frame.Units[0].Mowing!.GroundSpeed);
    }

    [Fact]
    public void Evaluate_NoSpeeds_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, Judge(AtMostTheHeight, FourMillimetres).Verdict);

    [Fact]
    public void Evaluate_OneSpeedOnly_IsUnproven()
    {
        var ground = Judge(AtMostTheHeight, Tried(new(Kmh("6"), null, null, null), FourMillimetres));
        var reel = Judge(AtMostTheHeight, Tried(new(null, Rpm("2200"), null, null), FourMillimetres));

        Assert.Equal(
            (Verdict.Unproven, FindingReason.NoSettingInForce, Verdict.Unproven),
            (ground.Verdict, ground.Reason, reel.Verdict)
        );
        Assert.Equal("Clip: at 6 km/h, but how fast the reel turns is stated nowhere", ground.Statement);
        Assert.Equal("Clip: at 2200 rev/min, but the ground speed is stated nowhere", reel.Statement);
    }

    [Fact]
    public void Evaluate_HeightNotRead_IsUnprovenAndSaysWhich()
    {
        var outcome = Judge(
            AtMostTheHeight,
            Tried(new(Kmh("4"), Rpm("2200"), null, null), Height("left", "4.00 mm"))
        );

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Clip at 4 km/h and 2200 rev/min, every 3.37 mm: height of cut not read at right (459 mm)",
            outcome.Statement
        );
        Assert.Equal(MeasuredQuantity.HeightOfCut, Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Quantity);
    }

    [Fact]
    public void Evaluate_NothingRead_IsUnproven() =>
        Assert.Equal(
            FindingReason.NotMeasured,
            Judge(AtMostTheHeight, Tried(new(Kmh("4"), Rpm("2200"), null, null))).Reason
        );

    // Read to 0.1 mm: U = 0.1/sqrt 3 = 0.058 mm; the clip of 3.367 mm is proven from 3.425 mm on.
    [Theory]
    [InlineData("3.2 mm", Verdict.NotMet)]
    [InlineData("3.4 mm", Verdict.Unproven)]
    [InlineData("3.5 mm", Verdict.Met)]
    public void Evaluate_HeightReadOnTheTurf_TakesThePlaceOfTheBench(string effective, Verdict verdict)
    {
        var outcome = Judge(
            AtMostTheHeight,
            Tried(new(Kmh("4"), Rpm("2200"), L(effective), null), FourMillimetres)
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains("on the turf", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_PrismTooLow_ProvesNothing()
    {
        // 2 km/h clip every 1.68 mm.
        var low = Judge(
            AtMostTheHeight,
            Tried(new(Kmh("2"), Rpm("2200"), L("3.0 mm"), null), FourMillimetres)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.GaugeUnfit), (low.Verdict, low.Reason));
        Assert.Equal(
            ["a prism cannot be relied on at or below 0.120 in (3.05 mm) (S06)"],
            low.Notices.AsEnumerable()
        );
    }

    [Fact]
    public void Evaluate_HeightMovedAfterTheTurfWasRead_GoesByTheBench()
    {
        var outcome = Judge(
            AtMostTheHeight,
            Tried(
                new(Kmh("4"), Rpm("2200"), L("3.2 mm"), null),
                [Moved(AdjusterKind.Height), .. FourMillimetres]
            )
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            ["the height of 3.2 mm on the turf was read before the unit was set anew: read it again"],
            outcome.Notices.AsEnumerable()
        );
    }

    [Fact]
    public void Evaluate_ReadInInches_AnswersInInches() =>
        Assert.StartsWith(
            "Clip: at 3.8 mph and 2200 rev/min 9 blades clip every 0.203 in (194 cuts in a metre), more than the height, left (51 mm) 0.15700 in",
            Judge(
                AtMostTheHeight,
                Tried(
                    new(Speed.Parse("3.8 mph").OrThrow(), Rpm("2200"), null, null),
                    Height("left", "0.157 in"),
                    Height("right", "0.157 in")
                )
            ).Statement,
            StringComparison.Ordinal
        );

    internal static JobFrame Tried(MowingTest tested, params BenchEntry[] entries) =>
        Tried(tested, Sheet, entries);

    internal static JobFrame Tried(MowingTest tested, LimitSheet sheet, params BenchEntry[] entries)
    {
        var record = Record(Unit(entries));
        return FrameBuilder.Build(
            record with
            {
                Machine = record.Machine with { Tested = tested },
            },
            Context,
            Book(sheet)
        );
    }

    internal static Speed Kmh(string figure) => Speed.Parse(figure + " km/h").OrThrow();

    internal static RotationRate Rpm(string figure) => RotationRate.Parse(figure + " rev/min").OrThrow();

    private static JobFrame Ordered(JobFrame frame, params AreaMowing[] mowing) =>
        FrameBuilder.Build(
            frame.Record,
            Context with
            {
                SettingOrders = [Order with { Mowing = [.. mowing] }],
            },
            Book()
        );
}
