using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// A turn noted as a distance is what somebody wished to turn. The sheet's step is 0.0127 mm; DG-01 reads a change to about
/// 0.0025 mm, HG-01 to about 0.012 mm.
/// </summary>
public class NotedDistanceTests
{
    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static Reading Gap(string station, string value) =>
        Measured(MeasuredQuantity.Clearance, station, value, "DG-01");

    private static BenchEntry[] GapBoth(string value) => [Gap("left", value), Gap("right", value)];

    private static Adjustment Closed(string distance) =>
        new()
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Both,
            Direction = AdjustDirection.Close,
            Amount = new AdjustmentAmount.Distance(L(distance)),
        };

    private static Adjustment ClosedSteps(int count) =>
        Steps(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, count);

    /// <summary>
    /// Two steps' worth noted, nearly six moved: five more by the sheet's step would take at least 0.175 mm out of a gap of 0.080.
    /// </summary>
    [Theory]
    [InlineData("0.0254 mm", "0.080 mm")]
    [InlineData("0.0400 mm", "0.090 mm")]
    [InlineData("0.0700 mm", "0.110 mm")]
    public void Evaluate_DistanceThatReadingsDisprove_CountsNoSteps(string noted, string after)
    {
        var outcome = Judge(Limit, [.. GapBoth("0.150 mm"), Closed(noted), .. GapBoth(after)]);

        var told = Assert.IsType<Remedy.Act>(outcome.Remedy).What;
        Assert.StartsWith("what was noted as turned is not what it moved", told, StringComparison.Ordinal);
        Assert.Contains("turn one or two counted steps one way", told, StringComparison.Ordinal);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("closed, as it was noted, moved", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Evaluate_DistanceThatMovedAsNoted_CountsSteps() =>
        Assert.IsType<Remedy.Turn>(
            Judge(Limit, [.. GapBoth("0.150 mm"), Closed("0.0508 mm"), .. GapBoth("0.0992 mm")]).Remedy
        );

    /// <summary>Known steps that agree do not undo a distance noted after them; those tried after it do.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Evaluate_CountedStepsTriedToo_CountOnlyWhenTheyCameLast(bool stepsLast)
    {
        BenchEntry[] log = stepsLast
            ?
            [
                .. GapBoth("0.200 mm"),
                Closed("0.0127 mm"),
                .. GapBoth("0.150 mm"),
                ClosedSteps(2),
                .. GapBoth("0.1246 mm"),
            ]
            :
            [
                .. GapBoth("0.200 mm"),
                ClosedSteps(2),
                .. GapBoth("0.1746 mm"),
                Closed("0.0127 mm"),
                .. GapBoth("0.1246 mm"),
            ];

        var remedy = Judge(Limit, log).Remedy;

        Assert.Equal(stepsLast ? typeof(Remedy.Turn) : typeof(Remedy.Act), remedy?.GetType());
    }

    /// <summary>What was read to be as noted, within what the readings leave, may all be the step: contact is counted with the most.</summary>
    [Fact]
    public void Evaluate_DistanceWithinTheReadings_WidensWhatAStepMayTake()
    {
        var counted = (Remedy.Turn)
            Judge(Limit, [.. GapBoth("0.150 mm"), ClosedSteps(4), .. GapBoth("0.0992 mm")]).Remedy!;
        var noted = (Remedy.Turn)
            Judge(Limit, [.. GapBoth("0.150 mm"), Closed("0.0508 mm"), .. GapBoth("0.0992 mm")]).Remedy!;

        Assert.Equal(
            counted.Predicted.Select(each => each.AfterDoubt),
            noted.Predicted.Select(each => each.AfterDoubt)
        );
    }

    /// <summary>From contact nothing is counted either.</summary>
    [Fact]
    public void Evaluate_InContactAfterADisprovedDistance_CountsNothingAfterFree()
    {
        var outcome = Judge(
            Limit,
            [
                .. GapBoth("0.150 mm"),
                Closed("0.0254 mm"),
                .. GapBoth("0.080 mm"),
                ClosedSteps(8),
                Contact(ContactState.Heavy),
            ]
        );

        Assert.IsType<Remedy.Act>(outcome.Remedy);
    }

    /// <summary>0.002 in passes, 0.0005 in closed, 0.0015 in stops: only of a counted step does the first try still tell.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Build_TriesBeforeADistance_AreNotCarriedAcrossIt(bool isCounted)
    {
        var frame = Frame(
            Feeler("left", "0.002 in", passes: true),
            isCounted ? ClosedSteps(1) : Closed("0.0005 in"),
            Feeler("left", "0.0015 in", passes: false)
        );

        var place = Left(frame, MeasuredQuantity.Clearance, 51);

        Assert.Equal((isCounted, !isCounted), (place.CountsEarlierTries, place.LeavesOutTries));
        Assert.Equal(isCounted, ((LengthInterval)place.Knowledge!).Lower is not null);
        Assert.Equal(
            !isCounted,
            Judge(Limit, frame)
                .Notices.Any(notice =>
                    notice.Contains("noted as a distance do not count", StringComparison.Ordinal)
                )
        );
    }

    /// <summary>One step's worth shifts the height by 0.010 mm at most; of what was really five steps the sheet carries nothing.</summary>
    [Theory]
    [InlineData("0.1373 mm", KnownState.Carried)]
    [InlineData("0.080 mm", KnownState.Stale)]
    public void Build_HeightAfterADistance_IsCarriedOnlyWhereItMovedAsNoted(string after, KnownState expected)
    {
        var frame = Frame([
            Height("left", "4.00 mm"),
            .. GapBoth("0.150 mm"),
            Closed("0.0127 mm"),
            .. GapBoth(after),
        ]);

        Assert.Equal(expected, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    /// <summary>0.20 mm down noted, 0.60 mm moved: a move counted in parts of a turn would go three times as far.</summary>
    [Fact]
    public void Evaluate_HeightScrewThatMovedThreeTimesTheNoted_TellsNoMove()
    {
        var lowered = new Adjustment
        {
            Adjuster = AdjusterKind.Height,
            Side = Side.Both,
            Direction = AdjustDirection.Lower,
            Amount = new AdjustmentAmount.Distance(L("0.20 mm")),
        };
        var outcome = Judge(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.StationsAndEnds
            ),
            Height("left", "4.40 mm"),
            Height("right", "4.44 mm"),
            lowered,
            Height("left", "3.80 mm"),
            Height("right", "3.84 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "turn a little one way and read it again",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }
}
