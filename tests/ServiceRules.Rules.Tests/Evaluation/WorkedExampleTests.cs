using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>The worked examples of docs/verdicts.md, numbers and all.</summary>
public class WorkedExampleTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    [Theory]
    [InlineData("4.02 mm", "4.00 mm", Verdict.Met, FindingReason.None)]
    [InlineData("4.15 mm", "4.15 mm", Verdict.NotMet, FindingReason.OutOfLimit)]
    [InlineData("4.095 mm", "4.095 mm", Verdict.Unproven, FindingReason.InsideGuard)]
    public void Evaluate_HeightsOfTheExamples_ComeOutAsWorked(
        string left,
        string right,
        Verdict verdict,
        FindingReason reason
    )
    {
        var outcome = Judge(OnTarget, Height("left", left), Height("right", right));

        Assert.Equal((verdict, reason), (outcome.Verdict, outcome.Reason));
        var atLeft = outcome.Comparisons.Single(compared => compared.Place == "51 mm");
        Assert.Equal(Mm(0.013013m), atLeft.Uncertainty);
        Assert.Equal((Mm(3.913013m), Mm(4.086987m)), (atLeft.AcceptLower!.Value, atLeft.AcceptUpper!.Value));
    }

    [Theory]
    [InlineData(2, Verdict.Met, FindingReason.None)]
    [InlineData(3, Verdict.Unproven, FindingReason.Stale)]
    public void Evaluate_ClearanceStepsAfterTheHeight_CarryItOrVoidIt(
        int steps,
        Verdict verdict,
        FindingReason reason
    )
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.02 mm"),
            Height("right", "4.00 mm"),
            Open(Side.Both, steps)
        );

        Assert.Equal((verdict, reason), (outcome.Verdict, outcome.Reason));
        Assert.True(steps == 3 || outcome.Comparisons.All(compared => compared.Uncertainty >= Mm(0.0265m)));
    }
}
