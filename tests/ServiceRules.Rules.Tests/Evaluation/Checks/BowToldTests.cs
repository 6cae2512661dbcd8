using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Nobody grinds for stations that stand together, nor for one reading that nobody took twice.</summary>
public class BowToldTests
{
    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    [Fact]
    public void Notices_OfStationsThatStandTogether_TellNoBow()
    {
        var outcome = Judge(
            Limit,
            Gap("left", "0.030 mm"),
            Gap("57 mm", "0.050 mm"),
            Gap("right", "0.030 mm")
        );

        Assert.DoesNotContain(outcome.Notices, notice => notice.Contains("bowed", StringComparison.Ordinal));
    }

    [Fact]
    public void Notices_OfABowByOneReading_AskForThatReadingFirst()
    {
        var outcome = Judge(
            Limit,
            Gap("left", "0.030 mm"),
            Gap("middle", "0.200 mm"),
            Gap("right", "0.030 mm")
        );

        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.EndsWith(
                    "read again at 255 mm first; if it stands, no adjuster takes a bow out; grind",
                    StringComparison.Ordinal
                )
        );
        Assert.StartsWith(
            "read again at 255 mm first; if it stands, grind",
            Assert.IsType<Remedy.CannotBeTurnedIn>(outcome.Remedy).WouldHelp,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Notices_OfABowThatWasReadTwice_AskForNoReadingMore()
    {
        var outcome = Judge(
            Limit,
            Gap("left", "0.030 mm"),
            Gap("middle", "0.200 mm"),
            Gap("middle", "0.200 mm"),
            Gap("right", "0.030 mm")
        );

        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.EndsWith("at the ends: no adjuster takes a bow out; grind", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Statement_OfWhatIsIn_NamesWhereItWasRead()
    {
        var outcome = Judge(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.StationsAndEnds
            ),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Contains(
            "in at left (51 mm) and right (459 mm), and at both ends by the line; tightest",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Notices_OfUnitsWithoutPositions_SayThatEndsThatMeetAreNotJudged()
    {
        var one = Unit(Height("left", "4.00 mm"), Height("right", "4.00 mm"));
        var frame = FrameBuilder.Build(
            Record(one with { Position = null }, one with { Id = new("U-01-2"), Position = null }),
            Context,
            Book()
        );

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units)),
            frame,
            unit: null
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "where units meet height of cut has a limit, and is not judged: no position is stated of U-01-1 and U-01-2",
            outcome.Notices
        );
    }

    private static Reading Gap(string station, string value) =>
        Measured(MeasuredQuantity.Clearance, station, value, "DG-01");
}
