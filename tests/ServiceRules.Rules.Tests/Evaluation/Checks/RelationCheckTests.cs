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
}
