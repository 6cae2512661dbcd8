using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Screws that set a height, and what readings before and after their turns tell.</summary>
public class ScrewTurnsTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static RuleBook ByScrew { get; } =
        Book(
            Sheet with
            {
                Adjusters =
                [
                    .. Sheet.Adjusters.Select(adjuster =>
                        adjuster.Kind is AdjusterKind.Height
                            ? adjuster with
                            {
                                Thread = new(L("1.0 mm"), 0.5m, 10),
                            }
                            : adjuster
                    ),
                ],
            }
        );

    /// <summary>1 mm pitch, ratio one half, tenths: 0.05 mm a part; four parts down from 4.30 mm, read again at both sides.</summary>
    private static CheckOutcome AfterFourDown(string height) =>
        Judge(
            OnTarget,
            FrameBuilder.Build(
                Record(
                    Unit(
                        Height("left", "4.30 mm"),
                        Height("right", "4.30 mm"),
                        Steps(AdjusterKind.Height, Side.Both, AdjustDirection.Lower, 4),
                        Height("left", height),
                        Height("right", height)
                    )
                ),
                Context,
                ByScrew
            )
        );

    [Theory]
    [InlineData("4.30 mm", "2/5 of a turn down moved the height of cut by nothing that the readings show")]
    [InlineData("4.40 mm", "2/5 of a turn down moved the height of cut the other way")]
    public void Evaluate_ScrewThatMovedNothingOrTheOtherWay_IsRemarked(string height, string told) =>
        Assert.Contains(
            AfterFourDown(height).Notices,
            notice => notice.StartsWith(told, StringComparison.Ordinal)
        );

    [Theory]
    [InlineData("4.10 mm")]
    [InlineData("4.20 mm")]
    public void Evaluate_ScrewThatMovedItsWay_IsNotRemarked(string height) =>
        Assert.DoesNotContain(
            AfterFourDown(height).Notices,
            notice => notice.Contains("of a turn", StringComparison.Ordinal)
        );

    /// <summary>Four parts moved 0.10 mm: 0.025 mm a part, where the sheet says 0.05 mm. Eight more for 0.20 mm.</summary>
    [Fact]
    public void Evaluate_LearnedRatioOfAScrew_IsSaidWithTheTurns()
    {
        var move = Assert.IsType<Remedy.Move>(AfterFourDown("4.20 mm").Remedy);

        Assert.Equal(Mm(0.025m), move.LearnedPart);
        Assert.Equal(-8, move.LeftTurns!.Parts);
    }

    [Theory]
    [InlineData("4.30 mm")]
    [InlineData("4.40 mm")]
    public void Evaluate_ScrewThatMovedNothingOrTheOtherWay_IsRepairedBeforeItIsCounted(string height) =>
        Assert.Contains(
            "repair that first",
            Assert.IsType<Remedy.Act>(AfterFourDown(height).Remedy).What,
            StringComparison.Ordinal
        );
}
