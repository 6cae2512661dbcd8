using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class LimitOnQuantityCheckTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check Gap = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check Shield = new Check.LimitOnQuantity(
        MeasuredQuantity.ShieldGap,
        LimitSource.Sheet,
        CheckedPlaces.Stations
    );

    private static readonly Check Worn = new Check.LimitOnQuantity(
        MeasuredQuantity.ReelDiameter,
        LimitSource.WornBelow,
        CheckedPlaces.Stations
    );

    [Fact]
    public void Evaluate_HeightsNearTheTarget_AreMetAtStationsAndEnds()
    {
        var outcome = Judge(OnTarget, Height("left", "4.02 mm"), Height("right", "4.00 mm"));

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            ["459 mm", "51 mm", "left end", "right end"],
            outcome.Comparisons.Select(compared => compared.Place).Order(StringComparer.Ordinal)
        );
        // Extrapolated by 51 mm over 408 mm: 4.02 + 0.02/8 = 4.0225 mm.
        Assert.Equal(Mm(4.0225m), outcome.Comparisons.Single(compared => compared.Place == "left end").Value);
    }

    [Fact]
    public void Evaluate_InAtTheStationsOutAtTheEnd_IsNotMet()
    {
        // 4.09 and 3.69: slope 0.40 over 408 mm, left end 4.09 + 0.05 = 4.14 mm; limit 4.10, U about 0.015 mm.
        var outcome = Judge(OnTarget, Height("left", "4.09 mm"), Height("right", "3.69 mm"));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(FindingReason.OutOfLimit, outcome.Reason);
        Assert.Equal("right end", outcome.Comparisons[0].Place);
        Assert.Equal(Mm(3.64m), outcome.Comparisons[0].Value);
        Assert.Contains("right end 3.640 mm", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(
            "3.690 mm ± 0.014 mm, limit at least 3.90 mm: out by 0.210 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        // Adjusters stand at the ends here: 4.00 - 4.14 and 4.00 - 3.64.
        var move = Assert.IsType<Remedy.Move>(outcome.Remedy);
        Assert.Equal((Mm(-0.14m), Mm(0.36m)), (move.Left, move.Right));
        Assert.Equal([MeasuredQuantity.HeightOfCut], move.Again.AsEnumerable());
    }

    [Fact]
    public void Evaluate_HeightInsideTheGuard_IsUnproven()
    {
        // U = 2 · 0.0065065 = 0.013013 mm: 4.095 is inside 4.10, but not by as much.
        var outcome = Judge(OnTarget, Height("left", "4.095 mm"), Height("right", "4.095 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    [Fact]
    public void Evaluate_TooCoarseAGauge_CannotProveTheLimit()
    {
        var record = Record(Unit(Height("left", "4.0 mm", "RULE"), Height("right", "4.0 mm", "RULE"))) with
        {
            Instruments =
            [
                new()
                {
                    Id = new("RULE"),
                    Kind = InstrumentKind.HeightGauge,
                    Resolution = L("0.5 mm"),
                },
            ],
        };

        var outcome = Judge(OnTarget, FrameBuilder.Build(record, Context, Book()));

        Assert.Equal((Verdict.Unproven, FindingReason.GaugeCannotProve), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_OneStationOnly_IsUnprovenWhileABreachStaysABreach()
    {
        var inside = Judge(OnTarget, Height("left", "4.00 mm"));
        var outside = Judge(OnTarget, Height("left", "4.50 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (inside.Verdict, inside.Reason));
        Assert.Equal(Verdict.NotMet, outside.Verdict);
    }

    [Fact]
    public void Evaluate_NotMeasuredStaleOrNoTarget_IsUnprovenWithTheReason()
    {
        var none = Judge(OnTarget);
        var stale = Judge(
            OnTarget,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Moved(AdjusterKind.Height, Side.Left)
        );
        var noOrder = Judge(
            OnTarget,
            FrameBuilder.Build(
                Record(Unit(Height("left", "4.00 mm"), Height("right", "4.00 mm"))),
                Context with
                {
                    SettingOrders = [],
                },
                Book()
            )
        );

        Assert.Equal((Verdict.Unproven, FindingReason.NotMeasured), (none.Verdict, none.Reason));
        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (stale.Verdict, stale.Reason));
        Assert.Contains("check again", stale.Statement, StringComparison.Ordinal);
        Assert.Equal((Verdict.Unproven, FindingReason.NoSettingInForce), (noOrder.Verdict, noOrder.Reason));
    }

    [Fact]
    public void Evaluate_UnfitGauge_TurnsMetIntoUnprovenButSoftensNoBreach()
    {
        JobFrame Read(string height) =>
            FrameBuilder.Build(
                Record(Unit(Height("left", height), Height("right", height))) with
                {
                    Instruments = [Instruments[0] with { ZeroCheck = new(L("0.05 mm"), null) }],
                },
                Context,
                Book()
            );

        var inside = Judge(OnTarget, Read("4.00 mm"));
        var outside = Judge(OnTarget, Read("5.00 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.GaugeUnfit), (inside.Verdict, inside.Reason));
        Assert.Equal(Verdict.NotMet, outside.Verdict);
    }

    [Fact]
    public void Evaluate_FeelersBoundTheGapInsideTheLimits_IsMet()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.0015 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        // Ends by interval: 9/8·0.0009 - 1/8·0.0016 = 0.0008125 in to 9/8·0.0016 - 1/8·0.0009 = 0.0016875 in.
        Assert.Equal(Verdict.Met, outcome.Verdict);
        var end = outcome.Comparisons.Single(compared => compared.Place == "left end");
        Assert.Equal(Length.FromInches(0.0008125m), end.KnownLower);
        Assert.Equal(Length.FromInches(0.0016875m), end.KnownUpper);
    }

    [Fact]
    public void Evaluate_ThickFeelerPasses_IsNotMetAndSaysHowManySteps()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.003 in", true),
            Feeler("left", "0.0035 in", false),
            Feeler("right", "0.003 in", true),
            Feeler("right", "0.0035 in", false)
        );

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        // Middle 0.00325 in. The school in force sets by the 0.001 in and 0.0015 in feelers, so the middle between them,
        // 0.00125 in, is aimed at, not merely the nearest place inside the limits: 4 steps of 0.0005 in.
        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        Assert.Equal((-4, -4), (turn.LeftSteps, turn.RightSteps));
        Assert.Equal(["left end", "51 mm", "459 mm", "right end"], turn.Predicted.Select(gap => gap.Place));
    }

    [Fact]
    public void Evaluate_FeelerWithoutStatedTolerance_ProvesNoLimit()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.001 in", true, "FG-02"),
            Feeler("left", "0.0015 in", false, "FG-02"),
            Feeler("right", "0.001 in", true, "FG-02"),
            Feeler("right", "0.0015 in", false, "FG-02")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.UncertaintyUnknown), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_OneFeelerOnly_LeavesTheIntervalAcrossTheLimit()
    {
        var outcome = Judge(Gap, Feeler("left", "0.001 in", true), Feeler("right", "0.001 in", true));

        Assert.Equal(
            (Verdict.Unproven, FindingReason.IntervalCrossesLimit),
            (outcome.Verdict, outcome.Reason)
        );
    }

    [Fact]
    public void Evaluate_BetweenTheTwoPrints_SaysSo()
    {
        // Upper limit 0.0025 in = 0.0635 mm, printed 0.064 mm. A metric feeler between them is held against 0.064 mm.
        var exact = Instruments[1] with
        {
            Id = new("FG-03"),
            Tolerance = L("0 mm"),
        };
        var record = Record(
            Unit(
                Feeler("left", "0.0630 mm", true, "FG-03"),
                Feeler("left", "0.0638 mm", false, "FG-03"),
                Feeler("right", "0.0630 mm", true, "FG-03"),
                Feeler("right", "0.0638 mm", false, "FG-03")
            )
        ) with
        {
            Instruments = [exact],
        };
        var check = new Check.LimitOnQuantity(
            MeasuredQuantity.Clearance,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        );

        var outcome = Judge(check, FrameBuilder.Build(record, Context, Book()));

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "left (51 mm) and right (459 mm): the two printed limits part here",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_ContactInTheGapSchool_OpensUntilFreeThenByTheSheet()
    {
        var outcome = Judge(Gap, Contact(ContactState.Partial));

        Assert.Equal((Verdict.NotMet, FindingReason.WrongContact), (outcome.Verdict, outcome.Reason));
        // Freed, the gap is above 0 and at most one step of 0.0005 in; two more put it above 0.001 in, which then
        // passes, and at 0.0015 in at most.
        var open = Assert.IsType<Remedy.OpenUntilFree>(outcome.Remedy);
        Assert.Equal(2, open.ThenOpen);
    }

    [Fact]
    public void Evaluate_ClearanceInTheContactSchool_DoesNotApply()
    {
        var light = Context with
        {
            SettingOrders = [Order with { Schools = [new("sheet-a", ContactSchool.LightContact)] }],
        };

        var outcome = Judge(Gap, FrameBuilder.Build(Record(Unit()), light, Book()));

        Assert.Equal(Verdict.NotApplicable, outcome.Verdict);
    }

    [Theory]
    [InlineData("1.60 mm", Verdict.Met)]
    [InlineData("0.80 mm", Verdict.NotMet)]
    [InlineData("2.40 mm", Verdict.NotMet)]
    [InlineData("1.99 mm", Verdict.Unproven)]
    public void Evaluate_QuantityOfOnePlace_IsHeldAgainstTheSheet(string value, Verdict verdict)
    {
        Assert.Equal(verdict, Judge(Shield, Measured(MeasuredQuantity.ShieldGap, null, value)).Verdict);
    }

    [Fact]
    public void Evaluate_WornReel_NeedsItsBedknifeSetForIt()
    {
        var fresh = Judge(Worn, Measured(MeasuredQuantity.ReelDiameter, null, "124.00 mm"));
        var worn = Judge(Worn, Measured(MeasuredQuantity.ReelDiameter, null, "121.00 mm"));
        var set = Judge(
            Worn,
            Measured(MeasuredQuantity.ReelDiameter, null, "121.00 mm"),
            Moved(AdjusterKind.BedknifePosition)
        );

        Assert.Equal(Verdict.Met, fresh.Verdict);
        Assert.Equal(Verdict.NotMet, worn.Verdict);
        Assert.Equal(Verdict.Met, set.Verdict);
        Assert.Contains("position for a worn reel", set.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_MiddleContradictsItselfBetweenGoodStations_IsUnproven()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Height("middle", "4.00 mm"),
            Height("middle", "4.05 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Contains("middle", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_BladeContradictsItselfBesideAReadingOfNoBlade_IsUnproven()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Height("left", "4.00 mm") with
            {
                Blade = 3,
            },
            Height("left", "4.05 mm") with
            {
                Blade = 3,
            }
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_MiddleVoidBetweenStationsReadAgain_IsUnprovenUntilReadAgainToo()
    {
        BenchEntry[] log =
        [
            Height("middle", "4.30 mm"),
            Moved(AdjusterKind.Height),
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
        ];

        var outcome = Judge(OnTarget, log);

        Assert.Equal((Verdict.Unproven, FindingReason.Stale), (outcome.Verdict, outcome.Reason));
        Assert.Equal(Verdict.Met, Judge(OnTarget, [.. log, Height("middle", "4.00 mm")]).Verdict);
    }

    /// <summary>A look for contact before the gap was set is no length that has to be read again.</summary>
    [Fact]
    public void Evaluate_ContactNotedBeforeTheGapWasSet_StandsInNoWay()
    {
        var before = Judge(Gap, Open(Side.Both, 1), Measured(MeasuredQuantity.Clearance, "left", "0.038 mm"));
        var after = Judge(
            Gap,
            Contact(ContactState.Light, "middle"),
            Open(Side.Both, 1),
            Measured(MeasuredQuantity.Clearance, "left", "0.038 mm")
        );

        Assert.Equal(before.Reason, after.Reason);
    }

    /// <summary>A strip or a touch noted in two ways anywhere holds up what feelers at the stations prove.</summary>
    [Theory]
    [InlineData("middle")]
    [InlineData("100 mm")]
    public void Evaluate_SightsContradictBetweenGoodStations_IsUnproven(string station)
    {
        BenchEntry[] gap =
        [
            Measured(MeasuredQuantity.Clearance, "left", "0.038 mm", "DG-01"),
            Measured(MeasuredQuantity.Clearance, "right", "0.038 mm", "DG-01"),
        ];

        var outcome = Judge(
            Gap,
            [.. gap, Contact(ContactState.None, station), Contact(ContactState.Light, station)]
        );

        Assert.Equal(Verdict.Met, Judge(Gap, [.. gap, Contact(ContactState.None, station)]).Verdict);
        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>Ends by the line 3.9375 and 4.1625; mean 4.05; U of the tilt as of side to side, 0.0147184, up to two figures.</summary>
    [Fact]
    public void Evaluate_OutOfLimit_TellsMeanAndTiltOverTheWidth()
    {
        var outcome = Judge(OnTarget, Height("left", "3.96 mm"), Height("right", "4.14 mm"));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(
            "over the width: mean 4.050 mm ± 0.012 mm; 0.225 mm ± 0.015 mm higher at the right end than at the left",
            Assert.Single(outcome.Notices)
        );
    }

    [Fact]
    public void Evaluate_BowedThoughIn_SaysThatNoAdjusterTakesItOut()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.00 mm"),
            Height("middle", "4.03 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Contains(
            "0.047 mm ± 0.016 mm higher in the middle than at the ends",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
        Assert.Contains("no adjuster takes a bow out", outcome.Notices[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_InAndStraight_TellsNoShape() =>
        Assert.Empty(Judge(OnTarget, Height("left", "4.00 mm"), Height("right", "4.02 mm")).Notices);

    [Fact]
    public void Evaluate_LastNoGoOneStepFirstGo_SaysTheGapInWords()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.001 in", passes: false),
            Feeler("right", "0.001 in", passes: false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", passes: true),
            Feeler("right", "0.001 in", passes: true)
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            [
                "left (51 mm) and right (459 mm): tries before the last step still count, moved with it by its lever; so the gap is between 0.0009 in and 0.00165 in",
            ],
            outcome.Notices.AsEnumerable()
        );
    }
}
