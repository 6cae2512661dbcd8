using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>What a finding on a limit says where it is out, not proven, or cannot be turned in.</summary>
public class LimitWordsTests
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

    /// <summary>A limit that counts as out itself is not broken by "0.00 mm".</summary>
    [Fact]
    public void Evaluate_ExactlyOnAnExcludedLimit_IsOutByNothing()
    {
        var frame = Frame(Measured(MeasuredQuantity.ShieldGap, null, "2.00 mm"));
        var rule = RuleFor(Shield, new RuleDecision(DecisionRule.Unguarded, LimitItself.Excluded));

        var outcome = CheckEvaluation.Evaluate(rule, frame, frame.Units[0]);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "limit 2.00 mm: at the limit, which itself is out",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    /// <summary>Upper limit 0.0025 in, itself out: a feeler thicker by its tolerance that passes leaves the gap on the limit or beyond.</summary>
    [Theory]
    [InlineData("0.0026 in", "at the limit or beyond it, and the limit itself is out")]
    [InlineData("0.0031 in", "out by at least 0.0005 in")]
    public void Evaluate_FeelersOnAnExcludedLimit_SayThatTheLimitItselfIsOut(string passes, string told)
    {
        var exact = Instruments[1] with { Id = new("FG-09"), Tolerance = L("0.0001 in") };
        var record = Record(
            Unit(
                Feeler("left", passes, true, "FG-09"),
                Feeler("left", "0.0035 in", false, "FG-09"),
                Feeler("right", "0.001 in", true, "FG-09"),
                Feeler("right", "0.0015 in", false, "FG-09")
            )
        );
        var frame = FrameBuilder.Build(
            record with
            {
                Instruments = [.. record.Instruments, exact],
            },
            Context,
            Book()
        );
        var atStations = new Check.LimitOnQuantity(
            MeasuredQuantity.Clearance,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        );
        var rule = RuleFor(atStations, new RuleDecision(DecisionRule.Unguarded, LimitItself.Excluded));

        var outcome = CheckEvaluation.Evaluate(rule, frame, frame.Units[0]);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.EndsWith(told, outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>A feeler of 0.0006 in, true to 0.0001 in, that passes leaves the gap on that lower limit or above it, and the limit itself is out.</summary>
    [Fact]
    public void Evaluate_FeelersThatLeaveNothingOutButTheLimitItself_SayThat()
    {
        var exact = Instruments[1] with { Id = new("FG-09"), Tolerance = L("0.0001 in") };
        var record = Record(
            Unit(
                Feeler("left", "0.0006 in", true, "FG-09"),
                Feeler("left", "0.0015 in", false, "FG-09"),
                Feeler("right", "0.001 in", true, "FG-09"),
                Feeler("right", "0.0015 in", false, "FG-09")
            )
        );
        var frame = FrameBuilder.Build(
            record with
            {
                Instruments = [.. record.Instruments, exact],
            },
            Context,
            Book()
        );
        var atStations = new Check.LimitOnQuantity(
            MeasuredQuantity.Clearance,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        );
        var rule = RuleFor(atStations, new RuleDecision(DecisionRule.Unguarded, LimitItself.Excluded));

        var outcome = CheckEvaluation.Evaluate(rule, frame, frame.Units[0]);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.EndsWith(
            "it may be at the limit, which itself is out",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    private static Remedy.CannotBeTurnedIn Bowed(string ends, string middle) =>
        Assert.IsType<Remedy.CannotBeTurnedIn>(
            Judge(
                new Check.LimitOnQuantity(
                    MeasuredQuantity.Clearance,
                    LimitSource.Sheet,
                    CheckedPlaces.Stations
                ),
                Measured(MeasuredQuantity.Clearance, "left", ends, "DG-01"),
                Measured(MeasuredQuantity.Clearance, "middle", middle, "DG-01"),
                Measured(MeasuredQuantity.Clearance, "right", ends, "DG-01")
            ).Remedy
        );

    /// <summary>
    /// Read in millimetres: 0.012 to 0.064 mm. Three steps of 0.0127 closed, 0.0381, leave 0.0681 at the stations, too wide by
    /// 0.0041, and 0.0081 in the middle, too tight by 0.0039. Of steps of 0.01397 they leave 0.0043 there, more than U.
    /// </summary>
    [Fact]
    public void Evaluate_NothingLandsInside_NamesEveryPlaceThatMisses()
    {
        var nearest = Bowed("0.1062 mm", "0.0462 mm").Nearest!;

        Assert.Equal((-3, -3), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(("51 mm", Mm(0.0041m), true), (nearest.Place, nearest.Excess, nearest.IsAbove));
        Assert.Equal(["255 mm", "459 mm"], nearest.Also.AsEnumerable());
        Assert.False(nearest.IsByOtherPrint);
    }

    /// <summary>
    /// 0.100, 0.200 and 0.100 mm at 51, 255 and 459 of 510 mm: by the parabola the ends stand at 0.1 - 0.1·((255/204)² - 1) =
    /// 0.04375 mm, less U above 0.002 what three steps of 0.01397, to which the sheet prints 0.0005 in, may close. Nine steps would
    /// halve the miss, and close both ends into contact.
    /// </summary>
    [Fact]
    public void Evaluate_BowedSoThatTheEndsWouldTouch_IsNotClosedFurther()
    {
        var nearest = Bowed("0.100 mm", "0.200 mm").Nearest!;

        Assert.Equal((-2, -2), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(("255 mm", Mm(0.1106m), true), (nearest.Place, nearest.Excess, nearest.IsAbove));
    }

    /// <summary>
    /// Seven steps closed, 0.0889 mm, leave 0.0120 to 0.0634 mm: inside the print in millimetres, 0.012 to 0.064, and below that
    /// in inches, 0.0127 to 0.0635, by 0.0007 mm.
    /// </summary>
    [Fact]
    public void Evaluate_OnlyTheOtherPrintIsMissed_SaysWhichPrint()
    {
        var nearest = Bowed("0.1523 mm", "0.1009 mm").Nearest!;

        Assert.Equal((-7, -7), (nearest.LeftSteps, nearest.RightSteps));
        Assert.True(nearest.IsByOtherPrint);
        Assert.Equal(Mm(0.0007m), nearest.Excess);
    }

    /// <summary>
    /// 3.96, 4.05 and 3.96 mm are each well in; the level line through them departs by up to 0.06 mm, so that the ends are
    /// known worse than the limit asks for.
    /// </summary>
    [Fact]
    public void Evaluate_BowedSoThatTheEndsAreUnproven_AsksToReadNearerTheEnds()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "3.96 mm"),
            Height("middle", "4.05 mm"),
            Height("right", "3.96 mm")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.EndsWith(
            "read within 5 mm of the ends",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
        Assert.Equal(
            [("left end", true), ("right end", true)],
            outcome
                .Comparisons.Where(compared => compared.IsAtEnd)
                .Select(compared => (compared.Place, compared.IsAtEnd))
        );
    }

    [Fact]
    public void Evaluate_StackCountedByRootSum_SaysSo()
    {
        Reading Stack(bool passes, params string[] feelers) =>
            Feeler("left", "0.001 in", passes) with
            {
                Observed = new Observation.FeelerTest([.. feelers.Select(L)], passes),
            };
        CheckOutcome With(StackRule rule)
        {
            var record = Record(
                Unit(
                    Stack(true, "0.0005 in", "0.0005 in"),
                    Feeler("right", "0.001 in", true),
                    Feeler("right", "0.0015 in", false)
                )
            );
            return Judge(
                Gap,
                FrameBuilder.Build(
                    record with
                    {
                        Instruments = [.. record.Instruments.Select(gauge => gauge with { Stacking = rule })],
                    },
                    Context,
                    Book()
                )
            );
        }

        Assert.StartsWith(
            "left (51 mm): the tolerances of stacked feelers are added by root-sum",
            Assert.Single(With(StackRule.RootSum).Notices),
            StringComparison.Ordinal
        );
        Assert.Empty(With(StackRule.WorstCase).Notices);
    }

    /// <summary>
    /// 4.00, 4.12 and 4.00 mm: the line through them lies at 4.04 mm, the parabola ends at 4.12 - 0.12·(255/204)² = 3.9325 mm.
    /// Down by 0.04 mm, to the target, would take the ends out below 3.90 mm; 0.02 mm takes the middle in, to 4.10 mm. A bow of
    /// 0.15 in place of 0.12 leaves no room at all.
    /// </summary>
    [Fact]
    public void Evaluate_Bowed_IsMovedSoThatItsEndsStayIn()
    {
        var move = Assert.IsType<Remedy.Move>(BowedHeight("4.12 mm").Remedy);

        Assert.InRange(move.Left.Millimetres, -0.0325m, -0.02m);
        Assert.Equal(move.Left, move.Right);
        Assert.IsType<Remedy.CannotBeTurnedIn>(BowedHeight("4.15 mm").Remedy);
    }

    private static CheckOutcome BowedHeight(string middle) =>
        Judge(OnTarget, Height("left", "4.00 mm"), Height("middle", middle), Height("right", "4.00 mm"));

    /// <summary>Out on one blade that was read at one side alone: a line of another blade tells nothing of how far to move.</summary>
    [Fact]
    public void Evaluate_OutOnOneBladeOfSome_IsReadOnEveryBladeBeforeItIsMoved()
    {
        var outcome = Judge(
            new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.SettingOrder,
                CheckedPlaces.StationsAndEnds
            ),
            Height("left", "4.00 mm") with
            {
                Blade = 1,
            },
            Height("left", "4.20 mm") with
            {
                Blade = 2,
            },
            Height("right", "4.00 mm") with
            {
                Blade = 1,
            }
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.StartsWith(
            "it is out on one blade, and not every blade was read",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }
}
