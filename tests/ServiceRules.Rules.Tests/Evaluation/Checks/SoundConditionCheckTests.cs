using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class SoundConditionCheckTests
{
    private static readonly Check Bearings = new Check.SoundCondition(MeasuredQuantity.BearingPlay);

    [Fact]
    public void Evaluate_ConditionSeen_DecidesByWhatStandsLast()
    {
        var sound = Judge(Bearings, Seen(MeasuredQuantity.BearingPlay, Condition.Sound));
        var faulty = Judge(Bearings, Seen(MeasuredQuantity.BearingPlay, Condition.Faulty));
        var putRight = Judge(
            Bearings,
            Seen(MeasuredQuantity.BearingPlay, Condition.Faulty),
            new PartFitted { Part = PartKind.ReelBearing },
            Seen(MeasuredQuantity.BearingPlay, Condition.Sound)
        );
        var seenTwoWays = Judge(
            Bearings,
            Seen(MeasuredQuantity.BearingPlay, Condition.Faulty),
            Seen(MeasuredQuantity.BearingPlay, Condition.Sound)
        );

        Assert.Equal(Verdict.Met, sound.Verdict);
        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (faulty.Verdict, faulty.Reason));
        Assert.Equal(Verdict.Met, putRight.Verdict);
        Assert.Equal(FindingReason.Conflicting, seenTwoWays.Reason);
        Assert.Equal(FindingReason.NotMeasured, Judge(Bearings).Reason);
    }

    [Theory]
    [InlineData(PaperResult.Cuts, Verdict.Met)]
    [InlineData(PaperResult.Nips, Verdict.NotMet)]
    [InlineData(PaperResult.Misses, Verdict.NotMet)]
    public void Evaluate_EdgeTriedByPaper_IsSoundWhereItCuts(PaperResult result, Verdict verdict)
    {
        var paper = new Reading
        {
            Quantity = MeasuredQuantity.Edge,
            Blade = 3,
            Observed = new Observation.Paper(result),
        };

        Assert.Equal(verdict, Judge(new Check.SoundCondition(MeasuredQuantity.Edge), paper).Verdict);
    }

    [Fact]
    public void Evaluate_OnePlaceVoidBesideASoundOne_IsUnprovenUntilLookedAtAgain()
    {
        var left = Seen(MeasuredQuantity.BearingPlay, Condition.Sound) with
        {
            Station = new Station.Named(StationName.Left),
        };
        var right = left with { Station = new Station.Named(StationName.Right) };
        var bearing = new PartFitted { Part = PartKind.ReelBearing };

        var oneVoid = Judge(Bearings, left, bearing, right);

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (oneVoid.Verdict, oneVoid.Reason));
        Assert.Equal(Verdict.Met, Judge(Bearings, left, bearing, right, left).Verdict);
        Assert.Equal(
            Verdict.Met,
            Judge(Bearings, left, bearing, Seen(MeasuredQuantity.BearingPlay, Condition.Sound)).Verdict
        );
    }
}
