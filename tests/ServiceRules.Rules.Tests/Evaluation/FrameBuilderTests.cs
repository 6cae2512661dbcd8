using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

public class FrameBuilderTests
{
    [Fact]
    public void Build_TwoOrdersInForce_TheLaterOneWinsForWhatItStates()
    {
        var later = Order with
        {
            Id = new("SO-2"),
            From = new(2026, 4, 1),
            Targets =
            [
                new("golf-greens", "sheet-a", MeasuredQuantity.HeightOfCut, L("3.50 mm"), L("0.05 mm")),
            ],
            Schools = [],
        };
        var ended = later with { Id = new("SO-3"), From = new(2026, 4, 2), Until = new(2026, 4, 12) };
        var context = Context with { SettingOrders = [Order, later, ended] };

        var unit = FrameBuilder.Build(Record(Unit()), context, Book()).Units[0];

        Assert.Equal(Mm(3.5m), Assert.Single(unit.Targets).Target.Value);
        Assert.Equal(ContactSchool.AirGap, unit.School);
    }

    [Fact]
    public void Build_JobCardAsksForAHeight_ItReplacesTheOrdersTarget()
    {
        var record = Record(Unit()) with
        {
            Requested =
            [
                new(MeasuredQuantity.HeightOfCut, L("4.50 mm"), new("lead-01")) { Order = Order.Id },
            ],
        };

        var target = Assert.Single(FrameBuilder.Build(record, Context, Book()).Units[0].Targets);

        Assert.Equal(Mm(4.5m), target.Target.Value);
    }

    /// <summary>Dated the day after it began: people went by what was in force when they began.</summary>
    [Theory]
    [InlineData("2026-04-12T23:30:00+00:00", "P-old")]
    [InlineData("2026-04-13T00:30:00+00:00", "P-new")]
    public void Build_ProcedureReplacedOnTheDayOfTheRecord_TakesTheOneOfTheFirstEntry(
        string began,
        string expected
    )
    {
        var old = SafetyCase.RideOn with
        {
            Id = new("P-old"),
            Machines = [Record(Unit()).Machine.Id],
            Until = new(2026, 4, 12),
        };
        var record = Record(Unit()) with
        {
            Date = new(2026, 4, 13),
            Place = WorkPlace.OnMachine,
            Timeline =
            [
                new()
                {
                    Kind = TimelineEventKind.MachineShutDown,
                    At = At(began),
                    Actor = new("tech-01"),
                },
            ],
        };

        var frame = FrameBuilder.Build(
            record,
            Context with
            {
                Procedures = [old with { Id = new("P-new"), From = new(2026, 4, 13), Until = null }, old],
            },
            Book()
        );

        Assert.Equal(expected, frame.Procedure?.Id.Text);
    }

    [Fact]
    public void Build_UnitOnASheetNotInForce_IsRefusedAndToldBeforehand()
    {
        var record = Record(Unit() with { Sheet = "sheet-b" });

        Assert.Equal(["/units/0/sheet"], FrameBuilder.UnknownSheets(record, Book()).AsEnumerable());
        Assert.Throws<ArgumentException>(() => FrameBuilder.Build(record, Context, Book()));
    }

    [Fact]
    public void Build_LocalTimesAndInstants_AreOrderedByMomentThenByEntry()
    {
        // Clocks one hour ahead: 09:30 on the wall is 08:30 UTC.
        var zone = ZoneOf("Europe/London", 60);
        TimelineEvent Event(string at) =>
            new()
            {
                Kind = TimelineEventKind.SeenAtRest,
                At = At(at),
                Actor = new("tech-01"),
            };
        var record = Record(Unit()) with
        {
            Timeline =
            [
                Event("2026-04-13T08:40:00Z"),
                Event("2026-04-13T09:30:00"),
                Event("2026-04-13T10:40:00+02:00"),
            ],
        };

        var frame = FrameBuilder.Build(record, Context with { Zone = zone }, Book());

        Assert.Equal([1, 0, 2], frame.Events.Select(item => item.Index));
    }

    [Fact]
    public void Build_UndisturbedReading_CountsAsFoundAndAsLeft()
    {
        var known = Frame(Height("left", "4.02 mm")).Units[0].Of(MeasuredQuantity.HeightOfCut)!;

        Assert.Equal(KnownState.Fresh, Assert.Single(known.Found).State);
        Assert.Equal(KnownState.Fresh, Assert.Single(known.Left).State);
        // u² = (0.010/2)² + 0.01²/12 + 0.003²: 0.00650641…, rounded up to 1e-7 mm.
        var measured = Assert.IsType<MeasuredValue>(known.Left[0].Knowledge);
        Assert.Equal(Mm(0.0065065m), measured.Uncertainty.Value);
    }

    [Fact]
    public void Build_ClearanceStepsWithinTheSheet_CarryTheHeightWithMoreDoubt()
    {
        var frame = Frame(Height("left", "4.02 mm"), Open(Side.Left, 1), Open(Side.Right, 1));

        var place = Left(frame, MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(KnownState.Carried, place.State);
        // One step per side is one step: ±0.010 mm rectangular on top; √(0.0065065² + 0.010²/3) = 0.00869872…
        Assert.Equal(Mm(0.0086988m), ((MeasuredValue)place.Knowledge!).Uncertainty.Value);
    }

    [Fact]
    public void Build_MoreClearanceStepsThanTheSheetAllows_MakeTheHeightStale()
    {
        var frame = Frame(Height("left", "4.02 mm"), Open(Side.Left, 3));

        var place = Left(frame, MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(KnownState.Stale, place.State);
        Assert.Null(place.Knowledge);
        Assert.Equal(["/units/0/entries/0", "/units/0/entries/1"], place.Evidence.AsEnumerable());
    }

    [Fact]
    public void Build_HeightRangeMoved_MakesHeightRollerAndGroomerStale()
    {
        var frame = Frame(
            Measured(MeasuredQuantity.GroomerHeight, null, "4.00 mm"),
            Height("left", "4.02 mm"),
            Measured(MeasuredQuantity.FrontRoller, "left", "10.00 mm"),
            Moved(AdjusterKind.HeightRange)
        );

        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.FrontRoller, 51).State);
        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.GroomerHeight).State);
    }

    [Fact]
    public void Build_OneStepOpenBetweenFeelers_BoundsTheGapFromBothSides()
    {
        // 0.001 in does not pass, one step of 0.0005 in, true to half its last digit, 0.00005 in, open on both sides, 0.001 in
        // passes; e = 0.0001 in: below 0.0011 + 0.00055 in.
        var frame = Frame(
            Feeler("left", "0.001 in", passes: false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", passes: true)
        );

        var interval = Assert.IsType<LengthInterval>(Left(frame, MeasuredQuantity.Clearance, 51).Knowledge);

        Assert.Equal(IntervalEnd.Closed(Domain.Quantities.Length.FromInches(0.0009m)), interval.Lower);
        Assert.Equal(IntervalEnd.Open(Domain.Quantities.Length.FromInches(0.00165m)), interval.Upper);
    }

    [Fact]
    public void Build_LeftSideOnlyOpened_MovesTheStationByItsLever()
    {
        // Station 51 mm of 510 mm: nine tenths of 0.0005 in and half its last digit, 0.00055 in. 0.0011 + 0.000495 in.
        var frame = Frame(
            Feeler("left", "0.001 in", passes: false),
            Open(Side.Left, 1),
            Feeler("left", "0.001 in", passes: true)
        );

        var interval = Assert.IsType<LengthInterval>(Left(frame, MeasuredQuantity.Clearance, 51).Knowledge);

        Assert.Equal(IntervalEnd.Open(Domain.Quantities.Length.FromInches(0.001595m)), interval.Upper);
    }

    [Fact]
    public void Build_FeelerNotTriedSinceItsAdjusterTurned_IsStale()
    {
        var frame = Frame(Feeler("left", "0.001 in", passes: true), Open(Side.Left, 1));

        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.Clearance, 51).State);
    }

    [Fact]
    public void Build_SameFeelerPassesAndDoesNot_ConflictsHoweverOftenItIsRepeated()
    {
        var twice = Frame(Feeler("left", "0.001 in", true), Feeler("left", "0.001 in", false));
        var thrice = Frame(
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.001 in", false),
            Feeler("left", "0.001 in", false)
        );

        Assert.Equal(KnownState.Conflicting, Left(twice, MeasuredQuantity.Clearance, 51).State);
        Assert.Equal(KnownState.Conflicting, Left(thrice, MeasuredQuantity.Clearance, 51).State);
    }

    [Fact]
    public void Build_HeightChangedWithNothingTurned_Conflicts()
    {
        var frame = Frame(Height("left", "4.30 mm"), Height("left", "4.00 mm"));

        Assert.Equal(KnownState.Conflicting, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
    }

    [Fact]
    public void Build_ReelGround_VoidsNearlyEverythingButTheStatedDiameter()
    {
        var frame = Frame(
            Feeler("left", "0.001 in", true),
            Height("left", "4.02 mm"),
            Seen(MeasuredQuantity.BearingPlay, Condition.Sound),
            new Grinding
            {
                Kind = GrindingKind.ReelSpin,
                Before = L("124.8 mm"),
                After = L("124.6 mm"),
            }
        );

        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.Clearance, 51).State);
        Assert.Equal(KnownState.Stale, Left(frame, MeasuredQuantity.HeightOfCut, 51).State);
        Assert.Equal(KnownState.Fresh, Left(frame, MeasuredQuantity.BearingPlay).State);
        var diameter = frame.Units[0].Of(MeasuredQuantity.ReelDiameter)!;
        Assert.Equal(Mm(124.8m), ((MeasuredValue)Assert.Single(diameter.Found).Knowledge!).Value);
        Assert.Equal(Mm(124.6m), ((MeasuredValue)Assert.Single(diameter.Left).Knowledge!).Value);
    }

    [Theory]
    [InlineData("HG-01", FindingReason.None)]
    [InlineData("HG-LATE", FindingReason.GaugeUnfit)]
    [InlineData("HG-OFF", FindingReason.GaugeUnfit)]
    [InlineData("HG-BARE", FindingReason.UncertaintyUnknown)]
    [InlineData(null, FindingReason.UncertaintyUnknown)]
    public void Build_GaugeOfAnyState_SaysWhyItProvesNothing(string? gauge, FindingReason doubt)
    {
        var good = Instruments[0];
        var record = Record(Unit(Height("left", "4.02 mm", gauge))) with
        {
            Instruments =
            [
                good,
                good with
                {
                    Id = new("HG-LATE"),
                    Calibration = good.Calibration! with { Due = new(2026, 4, 12) },
                },
                good with
                {
                    Id = new("HG-OFF"),
                    ZeroCheck = new(L("0.02 mm"), "SP-01"),
                },
                new Instrument { Id = new("HG-BARE"), Kind = InstrumentKind.HeightGauge },
            ],
        };

        var frame = FrameBuilder.Build(record, Context, Book());

        Assert.Equal(doubt, Left(frame, MeasuredQuantity.HeightOfCut, 51).Doubt);
    }

    [Fact]
    public void Build_StationNearTheGaugingStation_IsThatStation()
    {
        var frame = Frame(Height("2 in", "4.02 mm"));

        Assert.Equal(Mm(51), Assert.Single(frame.Units[0].Of(MeasuredQuantity.HeightOfCut)!.Left).Station);
    }

    [Fact]
    public void Build_FeelersContradictBesideALength_Conflicts()
    {
        var frame = Frame(
            Measured(MeasuredQuantity.Clearance, "left", "0.03 mm"),
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.001 in", false)
        );

        Assert.Equal(KnownState.Conflicting, Left(frame, MeasuredQuantity.Clearance, 51).State);
    }

    /// <summary>
    /// Backing off, left side only, in two steps: 0.001 in stops, one step, it stops again, one step, it passes. By hand, in
    /// thousandths, e = 0.1, a step at station 51 of 510 being 0.9 of 0.5 and half its last digit, 0.55, at most 0.495: after the
    /// second no-go the gap is less than 1.1, after the step less than 1.595; the first no-go carried through two steps says less
    /// than 2.09, which is wider; the go says at least 0.9. At the right station, one tenth of each step: less than 1.1 + 0.055, at
    /// least 0.9.
    /// </summary>
    [Fact]
    public void Build_LastNoGoOneStepFirstGo_BoundsTheGapByOneStep()
    {
        var frame = Frame(
            Feeler("left", "0.001 in", passes: false),
            Feeler("right", "0.001 in", passes: false),
            Open(Side.Left, 1),
            Feeler("left", "0.001 in", passes: false),
            Feeler("right", "0.001 in", passes: false),
            Open(Side.Left, 1),
            Feeler("left", "0.001 in", passes: true),
            Feeler("right", "0.001 in", passes: true)
        );

        var left = Left(frame, MeasuredQuantity.Clearance, 51);
        var right = Left(frame, MeasuredQuantity.Clearance, 459);

        Assert.Equal((0.0009m, 0.001595m), Inches(left));
        Assert.Equal((0.0009m, 0.001155m), Inches(right));
        Assert.True(left.CountsEarlierTries && right.CountsEarlierTries);
    }

    /// <summary>A wider bracket from before the step adds nothing to what was tried since.</summary>
    [Fact]
    public void Build_TriedOnBothSidesSinceTheStep_NeedsNoEarlierTry()
    {
        var frame = Frame(
            Feeler("left", "0.002 in", passes: false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", passes: true),
            Feeler("left", "0.0015 in", passes: false)
        );

        var place = Left(frame, MeasuredQuantity.Clearance, 51);

        Assert.Equal((0.0009m, 0.0016m), Inches(place));
        Assert.False(place.CountsEarlierTries);
    }

    /// <summary>
    /// 0.001 in stops, one step open: less than 0.0016 in. Then 0.003 in passes: at least 0.0029 in. Tried once, what it tells
    /// by itself stays known, and is in conflict; tried twice, it stands.
    /// </summary>
    [Theory]
    [InlineData(1, KnownState.Conflicting, FindingReason.Conflicting)]
    [InlineData(2, KnownState.Fresh, FindingReason.None)]
    public void Build_TriedAgainstWhatTheStepLeaves_KeepsWhatTheLatestTriesTell(
        int times,
        KnownState state,
        FindingReason doubt
    )
    {
        var frame = Frame([
            Feeler("left", "0.001 in", passes: false),
            Open(Side.Both, 1),
            .. Enumerable.Repeat(Feeler("left", "0.003 in", passes: true), times),
        ]);

        var place = Left(frame, MeasuredQuantity.Clearance, 51);

        Assert.Equal((state, doubt), (place.State, place.Doubt));
        Assert.Equal(LengthInterval.AtLeast(Domain.Quantities.Length.FromInches(0.0029m)), place.Knowledge);
    }

    /// <summary>
    /// The step open leaves less than 0.0016 in, 0.003 in passes all the same, and a length says neither: one contradiction
    /// more, and nothing stands.
    /// </summary>
    [Fact]
    public void Build_LengthBesideFeelersInConflict_LeavesNothingKnown()
    {
        var frame = Frame(
            Feeler("left", "0.001 in", passes: false),
            Open(Side.Both, 1),
            Feeler("left", "0.003 in", passes: true),
            Measured(MeasuredQuantity.Clearance, "left", "0.08 mm")
        );

        var place = Left(frame, MeasuredQuantity.Clearance, 51);

        Assert.Equal(KnownState.Conflicting, place.State);
        Assert.Null(place.Knowledge);
    }

    /// <summary>Two feelers as one: 0.0015 in, off by 2e in the worst case, by √2 e (0.00359211 mm, rounded up) by root-sum.</summary>
    [Theory]
    [InlineData(null, 0.03302)]
    [InlineData(StackRule.WorstCase, 0.03302)]
    [InlineData(StackRule.RootSum, 0.0345078)]
    public void Build_StackOfFeelers_IsTriedAsOneByTheRuleOfItsSet(StackRule? rule, decimal least)
    {
        var stacked = Feeler("left", "0.001 in", passes: true) with
        {
            Observed = new Observation.FeelerTest([L("0.0005 in"), L("0.001 in")], true),
        };
        var record = Record(Unit(stacked));
        var set = record with
        {
            Instruments =
            [
                .. record.Instruments.Select(gauge =>
                    gauge.Id.Text == "FG-01" ? gauge with { Stacking = rule } : gauge
                ),
            ],
        };

        var place = Left(FrameBuilder.Build(set, Context, Book()), MeasuredQuantity.Clearance, 51);

        Assert.Equal(IntervalEnd.Closed(Mm(least)), Assert.IsType<LengthInterval>(place.Knowledge).Lower);
    }

    private static (decimal Lower, decimal Upper) Inches(PlaceKnown place)
    {
        var interval = Assert.IsType<LengthInterval>(place.Knowledge);
        return (
            interval.Lower!.Value.Value.Millimetres / 25.4m,
            interval.Upper!.Value.Value.Millimetres / 25.4m
        );
    }
}
