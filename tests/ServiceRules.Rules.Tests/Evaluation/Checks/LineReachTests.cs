using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>What a line tells only where it may: not where a place was left out of it, nor far beyond its stations.</summary>
public sealed class LineReachTests
{
    private static readonly Check Sides = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides);

    private static readonly Check Parallel = new Check.Parallelism(
        MeasuredQuantity.FrontRoller,
        DatumMethod.MinimumZone
    );

    private static readonly Check InRange = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    // Limit 0.05 mm. By left and middle alone the ends would be 0.175 mm apart; with either reading of the right they may not be.
    [Fact]
    public void Evaluate_ContestedPlaceBesideALine_IsNotLeftOutOfIt()
    {
        var outcome = Judge(
            Sides,
            Height("left", "3.78 mm"),
            Height("middle", "3.85 mm"),
            Height("right", "3.79 mm"),
            Height("right", "3.84 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    [Fact]
    public void Evaluate_ContestedPlaceBesideARoller_IsNotLeftOut()
    {
        var outcome = Judge(
            Parallel,
            Measured(MeasuredQuantity.FrontRoller, "left", "0.010 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "middle", "0.050 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.020 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.050 mm", "DG-01")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    // The middle lies 0.060 mm above the left, more than 0.05 mm, whichever reading at the right is believed.
    [Fact]
    public void Evaluate_TwoReadingsTooFarApartBesideAContestedOne_AreOut()
    {
        var outcome = Judge(
            Parallel,
            Measured(MeasuredQuantity.FrontRoller, "left", "0.010 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "middle", "0.070 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.020 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.070 mm", "DG-01")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    // Out at the left, whatever the right is; how far to turn the right nobody knows.
    [Fact]
    public void Evaluate_OutBesideAContestedPlace_IsOutAndReadAgainFirst()
    {
        var outcome = Judge(
            InRange,
            Height("left", "9.99 mm"),
            Height("right", "3.79 mm"),
            Height("right", "3.95 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "do not tell how far to turn",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }

    // 204 mm apart, the right end 255 mm beyond them: by the line 0.28 mm higher than the left end.
    [Fact]
    public void Evaluate_SidesOfHalfAWidth_ShowNoBreach()
    {
        var outcome = Judge(Sides, Height("left", "3.78 mm"), Height("middle", "3.89 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    [Theory]
    [InlineData("170 mm", "340 mm", true)]
    [InlineData("171 mm", "340 mm", false)]
    public void Lines_EndAsFarBeyondAsTheStationsAreApart_IsTheFurthestTold(
        string first,
        string second,
        bool reaches
    ) =>
        Assert.Equal(
            reaches,
            Judge(Sides, Height(first, "3.50 mm"), Height(second, "4.50 mm")).Verdict is Verdict.NotMet
        );

    // Two stations 2 mm apart, and what gauges do: by the line the right end would be far out.
    [Fact]
    public void Evaluate_StationsSideBySide_TellNothingOfTheFarEnd()
    {
        var outcome = Judge(InRange, Height("100 mm", "3.95 mm"), Height("102 mm", "4.05 mm"));

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.DoesNotContain(outcome.Comparisons, compared => compared.IsAtEnd);
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    /// <summary>A quantity without gauging stations: 510 mm is 202 mm beyond 308 mm, and 210 mm beyond 300 mm.</summary>
    [Theory]
    [InlineData("105 mm", "308 mm", Verdict.Met, "")]
    [InlineData("100 mm", "300 mm", Verdict.Unproven, "not read at the right end, too far beyond")]
    [InlineData("210 mm", "410 mm", Verdict.Unproven, "not read at the left end, too far beyond")]
    [InlineData(
        "240 mm",
        "260 mm",
        Verdict.Unproven,
        "the left end, too far beyond what was read to be told and the right end, too far beyond what was read to be told"
    )]
    public void Evaluate_AnEndTooFarBeyond_IsNamed(string first, string second, Verdict verdict, string told)
    {
        var check = new Check.LimitOnQuantity(
            MeasuredQuantity.ShieldGap,
            LimitSource.Sheet,
            CheckedPlaces.StationsAndEnds
        );

        var outcome = Judge(
            check,
            Measured(MeasuredQuantity.ShieldGap, first, "1.50 mm"),
            Measured(MeasuredQuantity.ShieldGap, second, "1.50 mm")
        );

        Assert.Equal(
            (verdict, verdict is Verdict.Met ? FindingReason.None : FindingReason.TooFewStations),
            (outcome.Verdict, outcome.Reason)
        );
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>Left and middle tell the middle of a unit, 204 mm apart; not its right end, 255 mm further on.</summary>
    [Theory]
    [InlineData(SpreadAcross.Units, Verdict.NotMet)]
    [InlineData(SpreadAcross.AdjacentEnds, Verdict.Unproven)]
    public void Evaluate_AUnitReadAtLeftAndMiddle_IsComparedWhereItsLineReaches(
        SpreadAcross across,
        Verdict verdict
    )
    {
        var frame = Machine(
            [Height("left", "4.60 mm"), Height("middle", "4.60 mm")],
            [Height("left", "4.00 mm"), Height("right", "4.00 mm")]
        );

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, across)),
            frame,
            null
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(verdict is Verdict.Unproven, outcome.Comparisons.IsEmpty);
    }

    /// <summary>Every choice of what may be believed is looked at up to 64 of one unit; here each is out the same way.</summary>
    [Theory]
    [InlineData(8, Verdict.NotMet)]
    [InlineData(9, Verdict.Unproven)]
    public void Evaluate_ContradictionsAtBothEnds_AreLookedThroughUpTo64Choices(int left, Verdict verdict)
    {
        var outcome = Judge(Sides, [.. Apart("left", 4.20m, left), .. Apart("right", 3.80m, 8)]);

        Assert.Equal(verdict, outcome.Verdict);
    }

    /// <summary>And up to 256 of the units of a set: 8 times 8 times 4.</summary>
    [Theory]
    [InlineData(4, Verdict.NotMet)]
    [InlineData(5, Verdict.Unproven)]
    public void Evaluate_ContradictionsOfThreeUnits_AreLookedThroughUpTo256Choices(int third, Verdict verdict)
    {
        var frame = Machine(
            [.. Apart("left", 5m, 8), Height("right", "5.00 mm")],
            [.. Apart("left", 4m, 8), Height("right", "4.00 mm")],
            [.. Apart("left", 3m, third), Height("right", "3.00 mm")]
        );

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units)),
            frame,
            null
        );

        Assert.Equal(verdict, outcome.Verdict);
    }

    /// <summary>Readings of one place, each 0.02 mm above the one before, which the scatter of the gauge does not explain.</summary>
    private static IEnumerable<BenchEntry> Apart(string station, decimal from, int readings) =>
        Enumerable
            .Range(0, readings)
            .Select(
                BenchEntry (each) =>
                    Height(
                        station,
                        string.Create(CultureInfo.InvariantCulture, $"{from + (each * 0.02m):0.00} mm")
                    )
            );

    private static JobFrame Machine(params BenchEntry[][] units) =>
        FrameBuilder.Build(
            Record([
                .. units.Select(
                    (entries, at) => Unit(entries) with { Id = new($"U-01-{at + 1}"), Position = at + 1 }
                ),
            ]),
            Context,
            Book()
        );
}
