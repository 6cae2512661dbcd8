using System.Globalization;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class SpreadCheckTests
{
    private static readonly Check Sides = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides);

    private static readonly Check Units = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units);

    private static readonly Check Adjacent = new Check.Spread(
        MeasuredQuantity.HeightOfCut,
        SpreadAcross.AdjacentEnds
    );

    private static UnitWork At(int position, string left, string right) =>
        Unit(Height("left", left), Height("right", right)) with
        {
            Id = new($"U-01-{position}"),
            Position = position,
        };

    private static CheckOutcome Set(Check check, params UnitWork[] units) =>
        CheckEvaluation.Evaluate(RuleFor(check), FrameBuilder.Build(Record(units), Context, Book()), null);

    // Station differences grow to the ends by 510/408 = 1.25. The gauge's calibration (0.005 mm) drops out: what is
    // left is √(0.01²/12 + 0.003²) = 0.0041634 mm each, 0.0073598 mm of the difference, U = 0.01472 mm; limit 0.05 mm.
    [Theory]
    [InlineData("4.00 mm", "4.02 mm", Verdict.Met, 0.025)]
    [InlineData("4.02 mm", "4.00 mm", Verdict.Met, 0.025)]
    [InlineData("4.00 mm", "4.04 mm", Verdict.Unproven, 0.05)]
    [InlineData("4.00 mm", "4.08 mm", Verdict.NotMet, 0.10)]
    public void Evaluate_SideToSide_IsJudgedAtTheEnds(
        string left,
        string right,
        Verdict verdict,
        decimal apart
    )
    {
        var outcome = Judge(Sides, Height("left", left), Height("right", right));

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(Mm(apart), outcome.Comparisons[0].Value);
        Assert.InRange(outcome.Comparisons[0].Uncertainty!.Value.Millimetres, 0.0147m, 0.0148m);
    }

    [Fact]
    public void Evaluate_SideToSideOut_MovesBothEndsToTheTarget()
    {
        var outcome = Judge(Sides, Height("left", "4.00 mm"), Height("right", "4.08 mm"));

        // The line: 3.99 at the left end, 4.09 at the right end; target 4.00.
        var move = Assert.IsType<Remedy.Move>(outcome.Remedy);
        Assert.Equal((Mm(0.01m), Mm(-0.09m)), (move.Left, move.Right));
        Assert.Contains("right end above left end by 0.100 mm", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OneUnitApartFromTheOthers_NamesThePair()
    {
        var outcome = Set(
            Units,
            At(1, "4.00 mm", "4.00 mm"),
            At(2, "4.02 mm", "4.02 mm"),
            At(3, "4.20 mm", "4.20 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal("U-01-1 to U-01-3", outcome.Comparisons[0].Place);
        Assert.Contains("U-01-3 above U-01-1 by 0.2000 mm", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    // Limit 0.10 mm, U of a difference of two mid-widths 2·√2·0.0041634/√2 = 0.0083 mm: they must lie within 0.0916 mm.
    // Target 4.00 mm.
    [InlineData("4.00 mm", "4.02 mm", "4.20 mm", "U-01-3 -0.2 mm -0.2 mm", "U-01-1, U-01-2")]
    [InlineData("3.80 mm", "4.02 mm", "4.05 mm", "U-01-1 0.2 mm 0.2 mm", "U-01-2, U-01-3")]
    [InlineData("4.00 mm", "4.20 mm", "4.40 mm", "U-01-2 -0.2 mm -0.2 mm, U-01-3 -0.4 mm -0.4 mm", "U-01-1")]
    [InlineData("3.60 mm", "4.00 mm", "4.40 mm", "U-01-1 0.4 mm 0.4 mm, U-01-3 -0.4 mm -0.4 mm", "U-01-2")]
    public void Evaluate_UnitsApart_MovesTheFewest(
        string first,
        string second,
        string third,
        string moves,
        string stay
    )
    {
        var outcome = Set(Units, At(1, first, first), At(2, second, second), At(3, third, third));

        Assert.Equal((moves, stay), Told(outcome));
    }

    [Fact]
    public void Evaluate_EndsThatMeetInAStep_TellsHowFarToMove()
    {
        // Ends by the line: unit 1 stands 3.975 to 4.075, unit 2 3.95 level. The step of 0.125 is closed by levelling unit 1
        // on the target, and nothing else has to move.
        var outcome = Set(Adjacent, At(1, "3.985 mm", "4.065 mm"), At(2, "3.95 mm", "3.95 mm"));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(("U-01-1 0.025 mm -0.075 mm", "U-01-2"), Told(outcome));
    }

    [Fact]
    public void Evaluate_EveryRuleOnOneHeight_AsksForTheSameMove()
    {
        // Unit 2 is off target, not level and apart from unit 1: one move settles all.
        UnitWork[] units = [At(1, "4.00 mm", "4.00 mm"), At(2, "4.16 mm", "4.24 mm")];
        var frame = FrameBuilder.Build(Record(units), Context, Book());
        var onTarget = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.StationsAndEnds
        );

        var target = CheckEvaluation.Evaluate(RuleFor(onTarget), frame, frame.Units[1]);
        var sides = CheckEvaluation.Evaluate(RuleFor(Sides), frame, frame.Units[1]);
        var across = CheckEvaluation.Evaluate(RuleFor(Units), frame, null);

        var move = Assert.IsType<Remedy.Move>(target.Remedy);
        Assert.Equal((Mm(-0.15m), Mm(-0.25m)), (move.Left, move.Right));
        Assert.Equal(
            (move.Left, move.Right),
            Assert.IsType<Remedy.Move>(sides.Remedy) is var other ? (other.Left, other.Right) : default
        );
        Assert.Equal(("U-01-2 -0.15 mm -0.25 mm", "U-01-1"), Told(across));
    }

    [Fact]
    public void Evaluate_AHeightTooCloseToItsLimitThatIsMovedAnyway_AsksForThatMove()
    {
        // Left 4.095 is inside the guard of 4.10; the two ends differ by 0.11875, so the unit is levelled.
        var onTarget = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.Stations
        );
        BenchEntry[] entries = [Height("left", "4.095 mm"), Height("right", "4.00 mm")];

        var close = Judge(onTarget, entries);
        var sides = Judge(Sides, entries);

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (close.Verdict, close.Reason));
        Assert.Equal(Verdict.NotMet, sides.Verdict);
        var (one, other) = (
            Assert.IsType<Remedy.Move>(close.Remedy),
            Assert.IsType<Remedy.Move>(sides.Remedy)
        );
        Assert.Equal((one.Left, one.Right), (other.Left, other.Right));
    }

    /// <summary>
    /// 3.95 and 4.09 mm differ by more than 0.10 mm, and one of them was read with a gauge out of date. Whichever it is, it is read
    /// again before any unit is moved: else the one that a fit gauge finds in might be moved to match it.
    /// </summary>
    [Theory]
    [InlineData("3.95 mm", "4.09 mm")]
    [InlineData("4.09 mm", "3.92 mm")]
    public void Evaluate_UnitReadWithAGaugeOutOfDate_IsReadAgainBeforeAnyIsMoved(string fit, string late)
    {
        // A gauge that is out of date still shows a breach: across the units, and of no unit.
        var expired = Instruments[0] with
        {
            Id = new("HG-02"),
            Calibration = new(new(2024, 1, 10), new(2025, 1, 10), L("0.010 mm"), 2m),
        };
        var second = Unit(Height("left", late, "HG-02"), Height("right", late, "HG-02")) with
        {
            Id = new("U-01-2"),
            Position = 2,
        };
        var record = Record(At(1, fit, fit), second);
        var frame = FrameBuilder.Build(
            record with
            {
                Instruments = [.. record.Instruments, expired],
            },
            Context,
            Book()
        );
        var onTarget = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.StationsAndEnds
        );

        var set = CheckEvaluation.Evaluate(RuleFor(Units), frame, null);
        var unit = CheckEvaluation.Evaluate(RuleFor(onTarget), frame, frame.Units[1]);
        var sides = CheckEvaluation.Evaluate(RuleFor(Sides), frame, frame.Units[1]);

        Assert.Equal(["U-01-2"], Assert.IsType<Remedy.ReadAgain>(set.Remedy).Places.AsEnumerable());
        Assert.Equal(Verdict.Unproven, unit.Verdict);
        Assert.IsType<Remedy.ReadAgain>(unit.Remedy);
        Assert.Equal(Verdict.Unproven, sides.Verdict);
        Assert.IsType<Remedy.ReadAgain>(sides.Remedy);
    }

    [Fact]
    public void Evaluate_AUnitOfAStatedThread_IsToldInTurns()
    {
        // 1 mm pitch, ratio one half, tenths: 0.05 mm a part. Four down are 0.20 mm.
        var sheet = Sheet with
        {
            Adjusters =
            [
                .. Sheet.Adjusters.Select(adjuster =>
                    adjuster.Kind is AdjusterKind.Height
                        ? adjuster with
                        {
                            Thread = new(L("1.0 mm"), 0.5m, 10),
                        }
                        : adjuster
                ),
            ],
        };
        var frame = FrameBuilder.Build(
            Record([At(1, "4.00 mm", "4.00 mm"), At(2, "4.21 mm", "4.21 mm")]),
            Context,
            Book(sheet)
        );

        var units = Assert.IsType<Remedy.MoveUnits>(
            CheckEvaluation.Evaluate(RuleFor(Units), frame, null).Remedy
        );

        var move = Assert.Single(units.Moves);
        Assert.Equal(new(-4, 10, Mm(-0.2m)), move.LeftTurns);
        Assert.Equal(move.LeftTurns, move.RightTurns);
        Assert.Equal(Mm(-0.2m), move.Left);
    }

    private static (string Moves, string Stay) Told(CheckOutcome outcome)
    {
        var units = Assert.IsType<Remedy.MoveUnits>(outcome.Remedy);
        return (
            string.Join(
                ", ",
                units.Moves.Select(move => $"{move.Unit} {Plain(move.Left)} {Plain(move.Right)}")
            ),
            string.Join(", ", units.Stay)
        );
    }

    private static string Plain(Length length) =>
        length.Millimetres.ToString("0.####", CultureInfo.InvariantCulture) + " mm";

    [Fact]
    public void Evaluate_UnitNotMeasured_LeavesTheSetUnproven()
    {
        var outcome = Set(
            Units,
            At(1, "4.00 mm", "4.00 mm"),
            Unit() with
            {
                Id = new("U-01-2"),
                Position = 2,
            }
        );

        Assert.Equal((Verdict.Unproven, FindingReason.NotMeasured), (outcome.Verdict, outcome.Reason));
        Assert.Contains("U-01-2", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_OneUnitAlone_HasNothingToMatch()
    {
        Assert.Equal(Verdict.NotApplicable, Set(Units, At(1, "4.00 mm", "4.00 mm")).Verdict);
        Assert.Equal(Verdict.NotApplicable, Set(Adjacent, At(1, "4.00 mm", "4.00 mm")).Verdict);
    }

    [Fact]
    public void Evaluate_EndsThatMeet_AreComparedByPositionNotByOrder()
    {
        // Written down as 3, 1, 2: the step lies between 2 and 3; 1 to 3 never meet.
        var outcome = Set(
            Adjacent,
            At(3, "4.30 mm", "4.30 mm"),
            At(1, "4.00 mm", "4.00 mm"),
            At(2, "4.00 mm", "4.00 mm")
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Equal(2, outcome.Comparisons.Length);
        Assert.Equal("U-01-2 right end to U-01-3 left end", outcome.Comparisons[0].Place);
    }

    /// <summary>Every blade that was named counts, not the first alone.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Evaluate_OneBladeStandsOff_IsNotMetWhicheverItIs(int off)
    {
        Reading On(int blade, string station) =>
            Height(station, blade == off ? "4.20 mm" : "4.00 mm") with
            {
                Blade = blade,
            };
        var bladed = Unit([
            .. new[] { 1, 2 }.SelectMany(blade => new[] { On(blade, "left"), On(blade, "right") }),
        ]);

        var units = Set(Units, bladed, At(2, "4.00 mm", "4.00 mm"));
        var ends = Set(Adjacent, bladed, At(2, "4.00 mm", "4.00 mm"));

        Assert.Equal((Verdict.NotMet, Verdict.NotMet), (units.Verdict, ends.Verdict));
        Assert.Contains($"U-01-1, blade {off}", units.Statement, StringComparison.Ordinal);
        Assert.Contains($"U-01-1 right end, blade {off}", ends.Statement, StringComparison.Ordinal);
    }

    /// <summary>
    /// 4.025 and 4.12 mm: 0.095 apart, inside the guard of 0.10. The second is out of its own limit of 4.10 mm and moved for
    /// that, so that the set asks for the same move and not to be read again first.
    /// </summary>
    [Fact]
    public void Evaluate_UnprovenSetOfWhichAUnitIsMovedAnyway_AsksForThatMove()
    {
        var frame = FrameBuilder.Build(
            Record(At(1, "4.025 mm", "4.025 mm"), At(2, "4.12 mm", "4.12 mm")),
            Context,
            Book()
        );
        var onTarget = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.StationsAndEnds
        );

        var set = CheckEvaluation.Evaluate(RuleFor(Units), frame, null);
        var unit = CheckEvaluation.Evaluate(RuleFor(onTarget), frame, frame.Units[1]);

        Assert.Equal((Verdict.Unproven, Verdict.NotMet), (set.Verdict, unit.Verdict));
        Assert.Equal(("U-01-2 -0.12 mm -0.12 mm", "U-01-1"), Told(set));
        Assert.Equal(Mm(-0.12m), Assert.IsType<Remedy.Move>(unit.Remedy).Left);
    }

    /// <summary>
    /// 4.09 mm ± more than 0.01 mm against 4.10 mm: in, and not proven so. Where the rule asks for proof it holds the machine after
    /// the middle unit, 4.50 mm, is turned down, so it is turned with it.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Evaluate_UnitWhoseOwnLimitIsNotProven_IsMovedWithTheOthers(bool isGuarded)
    {
        var onTarget = RuleFor(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.StationsAndEnds
            ),
            isGuarded ? RuleDecision.Guarded : RuleDecision.Simple
        );
        var pack = new RulePack
        {
            Id = new("pack-a"),
            Title = "Pack",
            Version = "1",
            Layer = PackLayer.Base,
            Rules = [onTarget],
        };
        var frame = FrameBuilder.Build(
            Record(At(1, "4.09 mm", "4.09 mm"), At(2, "4.50 mm", "4.50 mm"), At(3, "4.06 mm", "4.06 mm")),
            Context,
            new RuleBook([pack], [Sheet])
        );

        var units = Assert.IsType<Remedy.MoveUnits>(
            CheckEvaluation.Evaluate(RuleFor(Units), frame, null).Remedy
        );

        Assert.Equal(isGuarded, units.Moves.Any(move => move.Unit == "U-01-1"));
        Assert.DoesNotContain(units.Moves, move => move.Unit == "U-01-3");
    }

    /// <summary>4.10 mm on a limit of 4.10 mm that is itself out by the rule in force: the plan of the machine moves it too.</summary>
    [Theory]
    [InlineData(LimitItself.Excluded, true)]
    [InlineData(LimitItself.Permitted, false)]
    public void Evaluate_UnitOnALimitThatIsItselfOut_IsMovedByThePlan(LimitItself itself, bool isMoved)
    {
        var onTarget = RuleFor(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.StationsAndEnds
            ),
            new RuleDecision(DecisionRule.Unguarded, itself)
        );
        var pack = new RulePack
        {
            Id = new("pack-a"),
            Title = "Pack",
            Version = "1",
            Layer = PackLayer.Base,
            Rules = [onTarget],
        };
        // The middle unit is far out, so that there is a plan at all.
        var frame = FrameBuilder.Build(
            Record(At(1, "4.10 mm", "4.10 mm"), At(2, "4.50 mm", "4.50 mm"), At(3, "4.06 mm", "4.06 mm")),
            Context,
            new RuleBook([pack], [Sheet])
        );

        var units = Assert.IsType<Remedy.MoveUnits>(
            CheckEvaluation.Evaluate(RuleFor(Units), frame, null).Remedy
        );

        Assert.Equal(isMoved, units.Moves.Any(move => move.Unit == "U-01-1"));
    }

    /// <summary>
    /// Two sheets, 0.10 mm or 0.0040 in and 0.0041 in or 0.099 mm: read in millimetres the second is the tighter though its governing
    /// print is the wider, and the other way round in inches.
    /// </summary>
    [Theory]
    [InlineData("4.0995 mm", Verdict.NotMet)]
    [InlineData("4.0985 mm", Verdict.Met)]
    public void Evaluate_UnitsOfTwoSheets_AreHeldToTheTighterPrintOfTheirSystem(
        string second,
        Verdict expected
    )
    {
        static LimitSheet Printing(string id, DualPrint across) =>
            Sheet with
            {
                Id = new(id),
                Quantities =
                [
                    .. Sheet.Quantities.Select(each =>
                        each.Quantity is MeasuredQuantity.HeightOfCut
                            ? each with
                            {
                                AcrossUnits = across,
                            }
                            : each
                    ),
                ],
            };
        var book = new RuleBook(
            [],
            [Printing("sheet-a", D("0.10 mm", "0.0040 in")), Printing("sheet-b", D("0.0041 in", "0.099 mm"))]
        );
        var frame = FrameBuilder.Build(
            Record(At(1, "4.00 mm", "4.00 mm"), At(2, second, second) with { Sheet = "sheet-b" }),
            Context,
            book
        );

        Assert.Equal(
            expected,
            CheckEvaluation.Evaluate(RuleFor(Units, RuleDecision.Simple), frame, null).Verdict
        );
    }

    /// <summary>
    /// The first unit is moved anyway. The second is told by its ends, 0.0475 ± 0.015 mm apart where 0.05 mm is the limit: left as it
    /// is it would hold the machine after that.
    /// </summary>
    [Fact]
    public void Evaluate_AUnitWhoseTiltIsNotProven_IsNotLeftWhereAnotherIsMoved()
    {
        var outcome = Set(
            Units,
            At(1, "4.20 mm", "4.20 mm"),
            At(2, "3.981 mm", "4.019 mm"),
            At(3, "4.00 mm", "4.00 mm")
        );

        var units = Assert.IsType<Remedy.MoveUnits>(outcome.Remedy);
        Assert.Equal(["U-01-1", "U-01-2"], units.Moves.Select(move => move.Unit));
        Assert.Equal("U-01-3", Assert.Single(units.Stay));
    }
}
