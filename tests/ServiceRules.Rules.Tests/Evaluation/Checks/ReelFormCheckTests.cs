using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// The calibration of the one gauge drops out of differences of its readings. What is left of each is √(0.01²/12 + 0.003²) =
/// 0.0041634 mm: U = 0.011776 mm for a taper of two, 0.0051 mm for half a barrel of three.
/// </summary>
public class ReelFormCheckTests
{
    private static readonly Check Taper = new Check.ReelForm(ReelFormOf.Taper);

    private static readonly Check Barrel = new Check.ReelForm(ReelFormOf.Barrel);

    private static readonly LimitSheet Tapered = With(limit => limit with { Taper = D("0.25 mm") });

    private static LimitSheet With(Func<QuantityLimit, QuantityLimit> reel) =>
        Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(limit =>
                    limit.Quantity is MeasuredQuantity.ReelDiameter ? reel(limit) : limit
                ),
            ],
        };

    private static CheckOutcome On(LimitSheet sheet, Check check, params BenchEntry[] entries) =>
        Judge(check, FrameBuilder.Build(Record(Unit(entries)), Context, Book(sheet)));

    private static Reading Diameter(string station, string value) =>
        Measured(MeasuredQuantity.ReelDiameter, station, value);

    [Theory]
    [InlineData("124.00 mm", "123.80 mm", Verdict.Met)]
    [InlineData("123.80 mm", "124.00 mm", Verdict.Met)]
    [InlineData("124.00 mm", "123.76 mm", Verdict.Unproven)]
    [InlineData("124.00 mm", "123.73 mm", Verdict.NotMet)]
    public void Evaluate_Taper_IsTheDifferenceOfTheEnds(string left, string right, Verdict verdict)
    {
        var outcome = On(Tapered, Taper, Diameter("left", left), Diameter("right", right));

        Assert.Equal(verdict, outcome.Verdict);
    }

    /// <summary>
    /// Right end read 0.15 mm smaller, on readings that scatter by some 0.1 mm about any form: to read nearer the ends is no advice
    /// where they were read.
    /// </summary>
    [Theory]
    [InlineData("5 mm", "505 mm", "read again at every station; the same gauge will do")]
    [InlineData("6 mm", "505 mm", "read again, and within 5 mm of the ends; the same gauge will do")]
    public void Evaluate_UnevenDiameters_AreReadAgainNearerTheEndsOnlyWhereTheyWereNot(
        string left,
        string right,
        string why
    )
    {
        var outcome = On(
            Tapered,
            Taper,
            Diameter(left, "124.00 mm"),
            Diameter("51 mm", "124.06 mm"),
            Diameter("middle", "123.90 mm"),
            Diameter("459 mm", "124.06 mm"),
            Diameter(right, "123.85 mm")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.EndsWith(why, Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why, StringComparison.Ordinal);
    }

    /// <summary>0.27 mm: the height tilts by half of it; atan(0.27 / 1020) = 0.0152 deg.</summary>
    [Fact]
    public void Evaluate_TaperOut_SaysWhatItDoesToTheHeight()
    {
        var outcome = On(Tapered, Taper, Diameter("left", "124.00 mm"), Diameter("right", "123.73 mm"));

        Assert.Contains(
            "left end larger than right end by 0.270 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Equal(
            "with the bedknife parallel to the blades the height of cut still tilts by about 0.135 mm over the width, "
                + "half the taper (derived, no source); cone half angle 0.0152 deg",
            Assert.Single(outcome.Notices)
        );
        Assert.IsType<Remedy.Act>(outcome.Remedy);
    }

    [Fact]
    public void Evaluate_MiddleReadToo_ABarrelTakesNothingFromTheTaper()
    {
        var two = On(Tapered, Taper, Diameter("left", "124.00 mm"), Diameter("right", "123.80 mm"));
        var three = On(
            Tapered,
            Taper,
            Diameter("left", "124.00 mm"),
            Diameter("middle", "124.10 mm"),
            Diameter("right", "123.80 mm")
        );

        Assert.Equal(two.Comparisons[0].Uncertainty, three.Comparisons[0].Uncertainty);
        Assert.Equal(two.Comparisons[0].Value, three.Comparisons[0].Value);
    }

    [Fact]
    public void Evaluate_TaperOfOnePlace_AsksForTheLength()
    {
        var outcome = On(Tapered, Taper, Measured(MeasuredQuantity.ReelDiameter, null, "124.00 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Equal("left, right", string.Join(", ", again.Places));
        Assert.Equal(FindingReason.NotMeasured, On(Tapered, Taper).Reason);
    }

    // Limits of the gap 0.012 to 0.064 mm leave room for 0.052 mm.
    [Theory]
    [InlineData("124.08 mm", Verdict.Met)]
    [InlineData("124.10 mm", Verdict.Unproven)]
    [InlineData("124.12 mm", Verdict.NotMet)]
    [InlineData("123.92 mm", Verdict.Met)]
    [InlineData("123.88 mm", Verdict.NotMet)]
    public void Evaluate_Barrel_HalfOfItMustFitBetweenTheLimitsOfTheGap(string middle, Verdict verdict)
    {
        var outcome = On(
            Sheet,
            Barrel,
            Diameter("left", "124.00 mm"),
            Diameter("middle", middle),
            Diameter("right", "124.00 mm")
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(Mm(0.052m), outcome.Comparisons[0].UpperLimit);
    }

    [Fact]
    public void Evaluate_Hourglass_SaysThatTheGapIsWiderInTheMiddle()
    {
        var outcome = On(
            Sheet,
            Barrel,
            Diameter("left", "124.00 mm"),
            Diameter("middle", "123.80 mm"),
            Diameter("right", "124.00 mm")
        );

        Assert.Contains(
            "gap wider in the middle than at the ends by 0.1000 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_BarrelLimitOfTheSheet_CountsBesideTheGap()
    {
        var outcome = On(
            With(limit => limit with { Barrel = D("0.05 mm") }),
            Barrel,
            Diameter("left", "124.00 mm"),
            Diameter("middle", "124.08 mm"),
            Diameter("right", "124.00 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            [(Mm(0.08m), Verdict.NotMet), (Mm(0.04m), Verdict.Met)],
            outcome.Comparisons.Select(compared => (compared.Value!.Value, compared.Verdict))
        );
    }

    [Fact]
    public void Evaluate_BarrelOfTwoStations_AsksForTheMiddle()
    {
        var outcome = On(Sheet, Barrel, Diameter("left", "124.00 mm"), Diameter("right", "124.00 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        Assert.Equal("Reel barrel: not read at three stations", outcome.Statement);
        Assert.Equal(
            "left, middle, right",
            string.Join(", ", Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places)
        );
    }

    [Fact]
    public void Evaluate_SheetWithoutLimits_DoesNotApply()
    {
        var bare = Sheet with { Quantities = [] };

        Assert.Equal(Verdict.NotApplicable, On(bare, Taper).Verdict);
        Assert.Equal(Verdict.NotApplicable, On(bare, Barrel).Verdict);
    }

    [Fact]
    public void Evaluate_GroundAfterTheReading_ChecksAgain()
    {
        var outcome = On(
            Tapered,
            Taper,
            Diameter("left", "124.00 mm"),
            Diameter("right", "124.00 mm"),
            new Grinding { Kind = GrindingKind.ReelSpin }
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData("124.40 mm", "124.50 mm", Verdict.NotMet)]
    [InlineData("124.00 mm", "124.50 mm", Verdict.Unproven)]
    [InlineData("123.50 mm", "124.50 mm", Verdict.Unproven)]
    public void Evaluate_ContradictingDiameters_AreATaperOnlyWhereEachIsTheSameWay(
        string first,
        string second,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            On(
                Tapered,
                Taper,
                Diameter("left", first),
                Diameter("left", second),
                Diameter("right", "124.00 mm")
            ).Verdict
        );

    /// <summary>
    /// 0.06 mm of taper and a wavy reel: read at four stations, 0.10 mm to either side of the line, so that the taper is known
    /// to more than 0.19 mm. By the gauge alone it would be in.
    /// </summary>
    [Fact]
    public void Evaluate_WavyReel_BlamesTheShapeAndNotTheGauge()
    {
        var outcome = On(
            Tapered,
            Taper,
            Diameter("50 mm", "124.00 mm"),
            Diameter("200 mm", "124.20 mm"),
            Diameter("310 mm", "124.00 mm"),
            Diameter("460 mm", "124.20 mm")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("do not lie on a straight line", outcome.Statement, StringComparison.Ordinal);
        Assert.EndsWith(
            "the same gauge will do",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }
}
