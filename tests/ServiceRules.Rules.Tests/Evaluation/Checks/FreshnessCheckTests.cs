using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class FreshnessCheckTests
{
    private static readonly Check Fresh = new Check.Freshness(MeasuredQuantity.HeightOfCut);

    [Fact]
    public void Evaluate_ReadAfterTheLastTurn_IsMet()
    {
        Assert.Equal(Verdict.Met, Judge(Fresh, Open(Side.Both, 5), Height("left", "4.00 mm")).Verdict);
    }

    [Fact]
    public void Evaluate_TurnedAfterTheReading_IsNotMet()
    {
        var outcome = Judge(Fresh, Height("left", "4.00 mm"), Open(Side.Both, 5));

        Assert.Equal((Verdict.NotMet, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
        Assert.Equal(["51 mm"], Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable());
    }

    [Fact]
    public void Evaluate_FewStepsAfterTheReading_CarryIt()
    {
        Assert.Equal(Verdict.Met, Judge(Fresh, Height("left", "4.00 mm"), Open(Side.Both, 2)).Verdict);
    }

    [Fact]
    public void Evaluate_MovedAndNeverRead_IsUnproven()
    {
        var outcome = Judge(Fresh, Open(Side.Both, 1));

        Assert.Equal((Verdict.Unproven, FindingReason.NotMeasured), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>A fixed bedknife leaves the height alone, and a touch-up of one need not gauge it.</summary>
    [Fact]
    public void Evaluate_NothingThatMovesItTurned_DoesNotApply()
    {
        Assert.Equal(Verdict.NotApplicable, Judge(Fresh).Verdict);
    }

    [Fact]
    public void Evaluate_ReadingsContradict_IsUnproven()
    {
        var outcome = Judge(Fresh, Height("left", "4.00 mm"), Height("left", "4.50 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }
}
