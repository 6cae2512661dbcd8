using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
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
            Measured(MeasuredQuantity.FrontRoller, "middle", "0.070 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.020 mm", "DG-01"),
            Measured(MeasuredQuantity.FrontRoller, "right", "0.070 mm", "DG-01")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
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
}
