using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class ProceduralLimitCheckTests
{
    private static readonly Check Taught = new Check.ProceduralLimit(MeasuredQuantity.Clearance);

    private static readonly AssessmentContext LightContact = Context with
    {
        SettingOrders = [Order with { Schools = [new("sheet-a", ContactSchool.LightContact)] }],
    };

    private static BenchEntry[] AsTaught(
        string with = "FG-01",
        string passes = "0.001 in",
        string stops = "0.0015 in"
    ) =>
        [
            Feeler("left", passes, true, with),
            Feeler("left", stops, false, with),
            Feeler("right", passes, true, with),
            Feeler("right", stops, false, with),
        ];

    private static CheckOutcome InContactSchool(params BenchEntry[] entries) =>
        Judge(Taught, FrameBuilder.Build(Record(Unit(entries)), LightContact, Book()));

    [Theory]
    [InlineData("FG-01", "0.001 in", "0.0015 in")]
    [InlineData("FG-01", "0.025 mm", "0.038 mm")]
    [InlineData("FG-02", "0.001 in", "0.0015 in")]
    public void Evaluate_TaughtFeelersAtBothStations_IsMet(string with, string passes, string stops)
    {
        Assert.Equal(Verdict.Met, Judge(Taught, AsTaught(with, passes, stops)).Verdict);
    }

    [Fact]
    public void Evaluate_TurnedAfterwards_IsStale()
    {
        var outcome = Judge(Taught, [.. AsTaught(), Open(Side.Right, 1)]);

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_OneStationOnly_IsNotProvenAtTheOther()
    {
        var outcome = Judge(Taught, AsTaught()[..2]);

        Assert.Equal((Verdict.Unproven, FindingReason.NotMeasured), (outcome.Verdict, outcome.Reason));
        Assert.Contains("459 mm", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OtherFeelers_DoNotFollowTheProcedure()
    {
        var outcome = Judge(Taught, AsTaught(stops: "0.002 in"));

        Assert.Equal(
            (Verdict.Unproven, FindingReason.ProcedureNotFollowed),
            (outcome.Verdict, outcome.Reason)
        );
    }

    /// <summary>Of a feeler that was tried but is found to be another thickness nobody may say that it was not tried.</summary>
    [Fact]
    public void Evaluate_OtherFeelers_SaysThatNoneOfThatThicknessWasTried() =>
        Assert.Contains(
            "no feeler of 0.0015 in was tried at left",
            Judge(Taught, AsTaught(stops: "0.0016 in")).Statement,
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_ContactOverAPart_ClosesOnlyTheSideThatDoesNotTouch() =>
        Assert.StartsWith(
            "close only the side that does not touch",
            Assert.IsType<Remedy.Act>(InContactSchool(Contact(ContactState.Partial)).Remedy).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_ThickerFeelerFirst_DoesNotFollowTheProcedure()
    {
        var outcome = Judge(
            Taught,
            Feeler("left", "0.0015 in", false),
            Feeler("left", "0.001 in", true),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal(
            (Verdict.Unproven, FindingReason.ProcedureNotFollowed),
            (outcome.Verdict, outcome.Reason)
        );
    }

    [Theory]
    [InlineData("0.001 in", false)]
    [InlineData("0.0015 in", true)]
    [InlineData("0.0005 in", false)]
    [InlineData("0.003 in", true)]
    public void Evaluate_FeelerThatShowsTheGapWrong_IsNotMet(string feeler, bool passes)
    {
        var outcome = Judge(Taught, Feeler("left", feeler, passes));

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_GapTooTight_CountsTheStepsThatOpenIt()
    {
        // Nothing touches and the 0.001 in feeler does not pass: 0 to 0.0011 in, the middle 0.01397 mm. One step of 0.0127
        // lands it at 0.02667 mm, between the feelers.
        var outcome = Judge(Taught, Feeler("left", "0.001 in", false), Feeler("right", "0.001 in", false));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        Assert.Equal((1, 1), (turn.LeftSteps, turn.RightSteps));
        Assert.Equal((Mm(0.01397m), Mm(0.02667m)), (turn.Predicted[1].Before, turn.Predicted[1].After));
        // Half of what is known, and of one step the half digit of its print, 0.00005 in = 0.00127 mm.
        Assert.Equal(
            (Mm(0.01397m), Mm(0.01524m)),
            (turn.Predicted[1].BeforeDoubt, turn.Predicted[1].AfterDoubt)
        );
    }

    [Fact]
    public void Evaluate_NoContactWhereLightContactIsTheSchool_CountsFromTheTaughtFeeler()
    {
        var outcome = InContactSchool(Contact(ContactState.None));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        // 0.001 in is two steps of 0.0005 in.
        Assert.EndsWith(
            "from a 0.001 in feeler that just drags at both ends that is about 2 steps on each side (derived)",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_StackThatPasses_IsCalledByItsFeelers()
    {
        Reading Stack(string station) =>
            Feeler(station, "0.002 in", true) with
            {
                Observed = new Observation.FeelerTest([L("0.002 in"), L("0.003 in")], true),
            };

        Assert.Equal(
            "Clearance: 0.002 in + 0.003 in stacked passes at left (51 mm) and right (459 mm)",
            Judge(Taught, Stack("left"), Stack("right")).Statement
        );
    }

    [Fact]
    public void Evaluate_GapTwoStepsTooWide_ClosesItBetweenTheFeelers()
    {
        var outcome = Judge(
            Taught,
            Feeler("left", "0.002 in", true),
            Feeler("left", "0.0025 in", false),
            Feeler("right", "0.002 in", true),
            Feeler("right", "0.0025 in", false)
        );

        // The middle of what they tell is 0.00225 in; two steps of 0.0005 in leave 0.00125 in, the first count that
        // lies between 0.001 and 0.0015 in.
        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        Assert.Equal((-2, -2), (turn.LeftSteps, turn.RightSteps));
        Assert.Equal(
            ["51 mm", "459 mm"],
            turn.Predicted.Where(gap => gap.Place.EndsWith("mm", StringComparison.Ordinal))
                .Select(gap => gap.Place)
        );
        Assert.All(turn.Predicted, gap => Assert.InRange(gap.After.Millimetres, 0.0317m, 0.0318m));
    }

    [Fact]
    public void Evaluate_SlipThatWasNotTakenBack_LeavesIt()
    {
        var outcome = Judge(
            Taught,
            [Feeler("left", "0.001 in", false), Feeler("left", "0.001 in", true), .. AsTaught()]
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData(ContactState.Light, FindingReason.WrongContact)]
    [InlineData(ContactState.Heavy, FindingReason.HeavyContact)]
    public void Evaluate_ContactWhereAGapIsWanted_IsNotMet(ContactState contact, FindingReason reason)
    {
        var outcome = Judge(Taught, Contact(contact));

        Assert.Equal((Verdict.NotMet, reason), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData(ContactState.Light, Verdict.Met, FindingReason.None)]
    [InlineData(ContactState.None, Verdict.NotMet, FindingReason.WrongContact)]
    [InlineData(ContactState.Partial, Verdict.NotMet, FindingReason.WrongContact)]
    [InlineData(ContactState.Heavy, Verdict.NotMet, FindingReason.HeavyContact)]
    public void Evaluate_ContactSchool_WantsItLightOverTheFullWidth(
        ContactState contact,
        Verdict verdict,
        FindingReason reason
    )
    {
        var outcome = InContactSchool(Contact(contact));

        Assert.Equal((verdict, reason), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_ContactAtAStationOrPaperAlone_ProvesNoContactOverTheWidth()
    {
        var paper = new Reading
        {
            Quantity = MeasuredQuantity.Clearance,
            Observed = new Observation.Paper(PaperResult.Cuts),
        };

        var atStation = InContactSchool(Contact(ContactState.Light, "left"));
        var byPaper = InContactSchool(paper);

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (atStation.Verdict, atStation.Reason));
        Assert.Equal((Verdict.Unproven, FindingReason.NotMeasured), (byPaper.Verdict, byPaper.Reason));
    }

    [Fact]
    public void Evaluate_ClearanceTurnedAfterContact_IsStale()
    {
        var outcome = InContactSchool(Contact(ContactState.Light), Open(Side.Left, 1));

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_NoSchoolInForce_IsUnproven()
    {
        var frame = FrameBuilder.Build(
            Record(Unit(AsTaught())),
            Context with
            {
                SettingOrders = [Order with { Schools = [] }],
            },
            Book()
        );

        Assert.Equal(FindingReason.NoSettingInForce, Judge(Taught, frame).Reason);
    }
}
