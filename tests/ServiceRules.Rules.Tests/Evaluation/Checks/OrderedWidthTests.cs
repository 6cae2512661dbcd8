using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>The sheet allows 0.10 mm about the target of 4.00 mm; an order may ask for less, never allow more.</summary>
public sealed class OrderedWidthTests
{
    [Fact]
    public void Evaluate_OrderWiderThanTheSheet_IsHeldToTheSheetAndTold()
    {
        var outcome = Judged("2 mm", D("0.10 mm"), "4.50 mm");

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(Mm(4.10m), outcome.Comparisons[0].UpperLimit);
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.StartsWith("the setting order states 2 mm either way", StringComparison.Ordinal)
                && notice.Contains("0.10 mm of the limit sheet", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("0.05 mm", 4.05)]
    [InlineData("0.10 mm", 4.10)]
    public void Evaluate_OrderNoWider_CountsAndNothingIsTold(string ordered, double upper)
    {
        var outcome = Judged(ordered, D("0.10 mm"), "4.08 mm");

        Assert.Equal(Mm((decimal)upper), outcome.Comparisons[0].UpperLimit);
        Assert.Empty(outcome.Notices);
    }

    [Fact]
    public void Evaluate_SheetWithoutATolerance_IsHeldToTheOrder()
    {
        var outcome = Judged("2 mm", null, "4.50 mm");

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Empty(outcome.Notices);
    }

    /// <summary>An order in inches between the two prints: read in millimetres the sheet's is tighter, in inches the order's.</summary>
    [Theory]
    [InlineData("4.2 mm", 0.10)]
    [InlineData("0.165 in", 0.127)]
    public void Evaluate_TwoPrints_TheTighterCountsInEachSystem(string read, double allowed)
    {
        var outcome = Judged("0.005 in", D("0.006 in", "0.10 mm"), read);

        Assert.Equal(Mm(4.00m + (decimal)allowed), outcome.Comparisons[0].UpperLimit);
    }

    private static CheckOutcome Judged(string ordered, DualPrint? bySheet, string height)
    {
        var sheet = Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(limit =>
                    limit.Quantity is MeasuredQuantity.HeightOfCut
                        ? limit with
                        {
                            ToleranceAboutTarget = bySheet,
                        }
                        : limit
                ),
            ],
        };
        var context = Context with
        {
            SettingOrders = [Order with { Targets = [Order.Targets[0] with { Tolerance = L(ordered) }] }],
        };
        return Judge(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.Stations
            ),
            FrameBuilder.Build(
                Record(Unit(Height("left", height), Height("right", height))),
                context,
                Book(sheet)
            )
        );
    }
}
