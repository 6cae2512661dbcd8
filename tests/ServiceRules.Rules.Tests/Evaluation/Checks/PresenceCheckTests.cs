using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class PresenceCheckTests
{
    private static readonly Check LeftAtBoth = new Check.Presence(
        MeasuredQuantity.HeightOfCut,
        RequiredPhase.Left,
        RequiredPlaces.BothStations
    );

    private static readonly Check FoundAnywhere = new Check.Presence(
        MeasuredQuantity.HeightOfCut,
        RequiredPhase.Found,
        RequiredPlaces.Any
    );

    [Fact]
    public void Evaluate_BothStationsRead_IsMet()
    {
        Assert.Equal(
            Verdict.Met,
            Judge(LeftAtBoth, Height("left", "4.00 mm"), Height("right", "4.00 mm")).Verdict
        );
    }

    [Fact]
    public void Evaluate_ReadingMissing_IsNotMetOnceSignedOffAndInProgressBefore()
    {
        var open = Record(Unit(Height("left", "4.00 mm"))) with { SignOff = null };

        var signedOff = Judge(LeftAtBoth, Height("left", "4.00 mm"));
        var inProgress = Judge(LeftAtBoth, FrameBuilder.Build(open, Context, Book()));

        Assert.Equal((Verdict.NotMet, FindingReason.TooFewStations), (signedOff.Verdict, signedOff.Reason));
        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (inProgress.Verdict, inProgress.Reason));
    }

    [Fact]
    public void Evaluate_TouchedBeforeItWasRead_IsLostEvenWhileTheJobIsOpen()
    {
        var open = Record(Unit(Moved(AdjusterKind.Height), Height("left", "4.00 mm"))) with
        {
            SignOff = null,
        };

        Assert.Equal(Verdict.NotMet, Judge(FoundAnywhere, FrameBuilder.Build(open, Context, Book())).Verdict);
    }

    [Fact]
    public void Evaluate_ReadButTurnedAfter_IsStale()
    {
        var outcome = Judge(
            LeftAtBoth,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Moved(AdjusterKind.Height)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
    }
}
