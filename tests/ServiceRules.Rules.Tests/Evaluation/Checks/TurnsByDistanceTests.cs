using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Turns noted as a distance, and what readings before and after them tell of the screw.</summary>
public class TurnsByDistanceTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static Adjustment Distance(Side side, AdjustDirection direction, string distance) =>
        new()
        {
            Adjuster = AdjusterKind.Height,
            Side = side,
            Direction = direction,
            Amount = new AdjustmentAmount.Distance(L(distance)),
        };

    /// <summary>3.60 mm at both sides, 0.20 mm up, read again at both sides.</summary>
    private static CheckOutcome AfterRaising(string height) =>
        Judge(
            OnTarget,
            Height("left", "3.60 mm"),
            Height("right", "3.60 mm"),
            Distance(Side.Both, AdjustDirection.Raise, "0.20 mm"),
            Height("left", height),
            Height("right", height)
        );

    [Theory]
    [InlineData("3.64 mm", "by 0.040 mm ± 0.012 mm: look for a slipping screw")]
    [InlineData("4.02 mm", "by 0.420 mm ± 0.012 mm: look for a slipping screw")]
    [InlineData("3.60 mm", "by nothing that the readings show")]
    [InlineData("3.55 mm", "the other way")]
    public void Evaluate_ScrewFarFromTheNotedDistance_IsRemarked(string height, string told) =>
        Assert.Contains(
            AfterRaising(height).Notices,
            notice =>
                notice.StartsWith(
                    $"0.20 mm up, as it was noted, moved the height of cut {told}",
                    StringComparison.Ordinal
                )
        );

    /// <summary>Each side has a screw of its own: one that moved 0.28 mm for the noted 0.20 hides one that moved nothing.</summary>
    [Fact]
    public void Evaluate_ScrewOfOneSideThatDidNothing_IsRemarkedThereAndRepairedFirst()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.30 mm"),
            Height("right", "4.30 mm"),
            Distance(Side.Both, AdjustDirection.Lower, "0.20 mm"),
            Height("left", "4.02 mm"),
            Height("right", "4.30 mm")
        );

        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.StartsWith(
                    "0.20 mm down, as it was noted, moved the height of cut at right (459 mm) by nothing that the readings show",
                    StringComparison.Ordinal
                )
        );
        Assert.Contains(
            "repair that first",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("3.80 mm")]
    [InlineData("3.72 mm")]
    [InlineData("3.88 mm")]
    public void Evaluate_ScrewAboutAsFarAsNoted_IsNotRemarked(string height) =>
        Assert.DoesNotContain(
            AfterRaising(height).Notices,
            notice => notice.Contains("as it was noted", StringComparison.Ordinal)
        );

    [Theory]
    [InlineData("3.60 mm")]
    [InlineData("3.55 mm")]
    public void Evaluate_ScrewThatMovedNothingOrTheOtherWay_IsRepairedFirst(string height) =>
        Assert.Contains(
            "repair that first",
            Assert.IsType<Remedy.Act>(AfterRaising(height).Remedy).What,
            StringComparison.Ordinal
        );

    /// <summary>
    /// The left adjuster at the left end, the station at a tenth: nine tenths of the distance there, a tenth at the right
    /// station, where the reading would be more of the gauge than of the screw.
    /// </summary>
    [Fact]
    public void Evaluate_OneSideTurned_IsHeldAgainstItsShareAtTheStation()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "3.60 mm"),
            Height("right", "3.60 mm"),
            Distance(Side.Left, AdjustDirection.Raise, "0.20 mm"),
            Height("left", "3.78 mm"),
            Height("right", "3.60 mm")
        );

        Assert.DoesNotContain(
            outcome.Notices,
            notice => notice.Contains("as it was noted", StringComparison.Ordinal)
        );
    }

    /// <summary>The first unit went down though it was raised: the set is not matched before that screw does what it should.</summary>
    [Fact]
    public void Evaluate_SetWithAScrewThatFails_AsksToRepairThatUnitFirst()
    {
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Height("left", "3.60 mm"),
                    Height("right", "3.60 mm"),
                    Distance(Side.Both, AdjustDirection.Raise, "0.20 mm"),
                    Height("left", "3.55 mm"),
                    Height("right", "3.55 mm")
                ),
                Unit(Height("left", "4.00 mm"), Height("right", "4.00 mm")) with
                {
                    Id = new("U-01-2"),
                    Position = 2,
                }
            ),
            Context,
            Book()
        );

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units)),
            frame,
            null
        );

        Assert.StartsWith(
            "on U-01-1, what was turned did not move it as it should",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }
}
