using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class RelationCheckTests
{
    private static readonly Check Equal = new Check.Relation(
        MeasuredQuantity.GroomerHeight,
        QuantityRelation.EqualTo,
        MeasuredQuantity.HeightOfCut,
        D("0.10 mm")
    );

    private static readonly Check NotAbove = new Check.Relation(
        MeasuredQuantity.GroomerHeight,
        QuantityRelation.NotAbove,
        MeasuredQuantity.HeightOfCut,
        D("0.10 mm")
    );

    private static CheckOutcome Against(Check check, string groomer) =>
        Judge(
            check,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Measured(MeasuredQuantity.GroomerHeight, null, groomer)
        );

    [Theory]
    [InlineData("4.03 mm", Verdict.Met, Verdict.Met)]
    [InlineData("3.80 mm", Verdict.NotMet, Verdict.Met)]
    [InlineData("4.20 mm", Verdict.NotMet, Verdict.NotMet)]
    [InlineData("4.10 mm", Verdict.Unproven, Verdict.Unproven)]
    public void Evaluate_GroomerAgainstHeight_IsJudgedAsTheRuleSays(
        string groomer,
        Verdict equal,
        Verdict notAbove
    )
    {
        Assert.Equal(equal, Against(Equal, groomer).Verdict);
        Assert.Equal(notAbove, Against(NotAbove, groomer).Verdict);
    }

    [Fact]
    public void Evaluate_GroomerOff_MovesItByTheDifference()
    {
        var move = Assert.IsType<Remedy.Move>(Against(Equal, "3.80 mm").Remedy);

        Assert.Equal((AdjusterKind.Groomer, Mm(0.20m), Mm(0.20m)), (move.Adjuster, move.Left, move.Right));
    }

    [Fact]
    public void Evaluate_HeightTurnedAfterTheGroomer_IsStale()
    {
        var outcome = Judge(
            Equal,
            Measured(MeasuredQuantity.GroomerHeight, null, "4.00 mm"),
            Moved(AdjusterKind.Height),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>Where the other quantity was read blade by blade, every blade counts, at the station and by its line.</summary>
    [Theory]
    [InlineData("left", 1)]
    [InlineData("left", 2)]
    [InlineData("middle", 1)]
    [InlineData("middle", 2)]
    public void Evaluate_OtherReadBladeByBlade_HoldsAgainstEveryBlade(string station, int off)
    {
        Reading On(int blade, string at) =>
            Height(at, blade == off ? "4.30 mm" : "4.00 mm") with
            {
                Blade = blade,
            };

        var outcome = Judge(
            Equal,
            [
                Measured(MeasuredQuantity.GroomerHeight, station, "4.00 mm"),
                .. new[] { 1, 2 }.SelectMany(blade => new[] { On(blade, "left"), On(blade, "right") }),
            ]
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains($"blade {off}", outcome.Comparisons[0].Place, StringComparison.Ordinal);
        var move = Assert.IsType<Remedy.Move>(outcome.Remedy);
        Assert.Equal((Mm(0.30m), Mm(0.30m)), (move.Left, move.Right));
    }

    [Fact]
    public void Evaluate_BothReadBladeByBlade_ComparesBladeWithBlade()
    {
        Reading Of(MeasuredQuantity quantity, int blade, string value) =>
            Measured(quantity, "51 mm", value) with
            {
                Blade = blade,
            };

        var outcome = Judge(
            Equal,
            Of(MeasuredQuantity.GroomerHeight, 1, "4.00 mm"),
            Of(MeasuredQuantity.GroomerHeight, 2, "5.00 mm"),
            Of(MeasuredQuantity.HeightOfCut, 1, "4.00 mm"),
            Of(MeasuredQuantity.HeightOfCut, 2, "5.00 mm")
        );

        Assert.All(outcome.Comparisons, compared => Assert.Equal(Verdict.Met, compared.Verdict));
        Assert.Equal(2, outcome.Comparisons.Length);
    }
}
