using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Step of the sheet 0.0127 mm, adjusters at both ends, station left a tenth of the width in.</summary>
public class StepObtainedCheckTests
{
    private static readonly Check Obtained = new Check.StepObtained(MeasuredQuantity.Clearance);

    private static Reading Gap(string station, string value) =>
        Measured(MeasuredQuantity.Clearance, station, value);

    private static Adjustment Closed(Side side, int count) =>
        Steps(AdjusterKind.Clearance, side, AdjustDirection.Close, count);

    [Fact]
    public void Evaluate_StepsThatMoveWhatTheSheetSays_IsMet()
    {
        // HG-01 without its calibration: √(0.01²/12 + 0.003²)·√2/5 = 0.0011776 a step.
        var outcome = Judge(Obtained, Gap("left", "0.100 mm"), Closed(Side.Both, 5), Gap("left", "0.036 mm"));

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "Clearance steps: 5 steps closed moved it 0.064 mm ± 0.012 mm at left (51 mm), where 0.0635 mm was "
                + "predicted: 0.0128 mm ± 0.0024 mm a step, as the sheet says (0.0127 mm)",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_ThereAndBack_CountsTheReadingBetweenOnce()
    {
        // Of each reading √(0.01²/12 + 0.003²) = 0.0041633; (2B - A - C)/10 has √6/10 of it, 0.0010198, U = 0.00204: 0.0108 is
        // 0.0019 from the sheet's 0.0127, which proves nothing. As four readings it would be 2/10, U = 0.00167: a fault.
        var outcome = Judge(
            Obtained,
            Gap("left", "0.100 mm"),
            Closed(Side.Both, 5),
            Gap("left", "0.046 mm"),
            Open(Side.Both, 5),
            Gap("left", "0.100 mm")
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_StepsThatMoveLess_NameTheFault()
    {
        var outcome = Judge(Obtained, Gap("left", "0.100 mm"), Closed(Side.Both, 5), Gap("left", "0.080 mm"));

        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (outcome.Verdict, outcome.Reason));
        Assert.EndsWith(
            "moved it 0.020 mm ± 0.012 mm at left (51 mm), where 0.0635 mm was predicted: 0.0040 mm ± 0.0024 mm a step, "
                + "the sheet says 0.0127 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "loose pivot",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
        Assert.Equal(["/units/0/entries/0", "/units/0/entries/2"], outcome.Evidence.AsEnumerable());
    }

    /// <summary>
    /// By the fine gauge at the left two steps moved it 0.006 mm, √(0.001²/12 + 0.0005²)·√2/2 = 0.000408: 0.003 ± 0.0008 a step. By the
    /// coarse one at the right 0.018, 0.009 ± 0.0113. Together 0.006 ± 0.0071, which leaves the sheet's 0.0127: the fine one proves
    /// it wrong all the same, speaks, and is counted with.
    /// </summary>
    [Fact]
    public void Evaluate_AFaultByAFineGaugeBesideACoarseOne_IsToldByTheFineOne()
    {
        static Instrument Dial(string id, string repeats) =>
            new()
            {
                Id = new(id),
                Kind = InstrumentKind.DialGauge,
                Resolution = L("0.001 mm"),
                Repeatability = L(repeats),
                ZeroCheck = new(L("0.000 mm"), null),
            };
        static Reading By(string gauge, string station, string value) =>
            Measured(MeasuredQuantity.Clearance, station, value, gauge);
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    By("fine", "left", "0.001 mm"),
                    By("coarse", "right", "0.010 mm"),
                    Open(Side.Both, 2),
                    By("fine", "left", "0.007 mm"),
                    By("coarse", "right", "0.028 mm")
                )
            ) with
            {
                Instruments = [Dial("fine", "0.0005 mm"), Dial("coarse", "0.008 mm")],
            },
            Context,
            Book()
        );

        var outcome = Judge(Obtained, frame);
        var gap = Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            frame
        );

        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (outcome.Verdict, outcome.Reason));
        Assert.EndsWith(
            "moved it 0.0060 mm ± 0.0017 mm at left (51 mm), where 0.0254 mm was predicted: 0.00300 mm ± 0.00082 mm a step, "
                + "the sheet says 0.0127 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Equal(Mm(0.003m), Assert.IsType<Remedy.Turn>(gap.Remedy).LearnedStep);
    }

    [Fact]
    public void Evaluate_StepsThatMoveTheOtherWay_AskForTheDirectionFirst()
    {
        var outcome = Judge(Obtained, Gap("left", "0.100 mm"), Closed(Side.Both, 5), Gap("left", "0.150 mm"));

        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (outcome.Verdict, outcome.Reason));
        Assert.EndsWith(
            "where 0.0635 mm was predicted: the other way, the sheet says 0.0127 mm",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "see which way the adjuster turns",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_StepsThatMoveMore_AskForTheSheetToo()
    {
        var outcome = Judge(Obtained, Gap("left", "0.100 mm"), Open(Side.Both, 2), Gap("left", "0.150 mm"));

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("2 steps open moved it", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(
            "sheet's step",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_OneSideTurned_CountsByItsLever()
    {
        // Left alone by 10: nine steps at the left station, 0.1143 mm.
        var outcome = Judge(
            Obtained,
            Gap("left", "0.200 mm"),
            Closed(Side.Left, 10),
            Gap("left", "0.086 mm")
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains("where 0.1143 mm was predicted", outcome.Statement, StringComparison.Ordinal);
    }

    public static TheoryData<string, BenchEntry[]> TellNothing { get; } =
        new()
        {
            { "nothing turned", [Gap("left", "0.100 mm"), Gap("left", "0.100 mm")] },
            {
                "turned both ways",
                [Gap("left", "0.100 mm"), Closed(Side.Both, 4), Open(Side.Both, 1), Gap("left", "0.030 mm")]
            },
            {
                "amount not known",
                [Gap("left", "0.100 mm"), Moved(AdjusterKind.Clearance), Gap("left", "0.030 mm")]
            },
            { "another place", [Gap("left", "0.100 mm"), Closed(Side.Both, 5), Gap("right", "0.030 mm")] },
            { "at its pivot", [Gap("left", "0.100 mm"), Closed(Side.Right, 4), Gap("left", "0.095 mm")] },
            {
                "a bearing fitted between",
                [
                    Gap("left", "0.100 mm"),
                    Closed(Side.Both, 5),
                    new PartFitted { Part = PartKind.ReelBearing },
                    Gap("left", "0.030 mm"),
                ]
            },
            { "one coarse step", [Gap("left", "0.100 mm"), Closed(Side.Both, 1), Gap("left", "0.090 mm")] },
            {
                "the feelers of the procedure",
                [Feeler("left", "0.001 in", false), Open(Side.Both, 1), Feeler("left", "0.001 in", true)]
            },
        };

    [Theory]
    [MemberData(nameof(TellNothing))]
    public void Evaluate_NothingThatTells_DoesNotApply(string name, BenchEntry[] entries)
    {
        Assert.NotEmpty(name);
        Assert.Equal(Verdict.NotApplicable, Judge(Obtained, entries).Verdict);
    }

    [Fact]
    public void Evaluate_OneTimeMoreThanTheOtherAllows_IsUnproven()
    {
        var outcome = Judge(
            Obtained,
            Feeler("left", "0.010 in", true),
            Feeler("left", "0.011 in", false),
            Closed(Side.Both, 8),
            Feeler("left", "0.006 in", true),
            Feeler("left", "0.0065 in", false),
            Closed(Side.Both, 8),
            Feeler("left", "0.006 in", true),
            Feeler("left", "0.0065 in", false)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }

    private static CheckOutcome AfterFive(string before, string after) => AfterTurning(before, 5, after);

    private static CheckOutcome AfterTurning(string before, int steps, string after) =>
        Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            Gap("left", before),
            Gap("right", before),
            Closed(Side.Both, steps),
            Gap("left", after),
            Gap("right", after)
        );

    /// <summary>
    /// Five steps moved 0.13 mm at both stations: 0.026 a step, twice the sheet's. From 0.120 to at most 0.0635 takes three, and
    /// three of 0.028, its upper end, leave 0.03 and more.
    /// </summary>
    [Fact]
    public void Evaluate_LearnedStep_IsWhatTheNextRemedyCountsWith()
    {
        var outcome = AfterFive("0.250 mm", "0.120 mm");

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        Assert.Equal(Mm(0.026m), turn.LearnedStep);
        Assert.Equal((-3, -3), (turn.LeftSteps, turn.RightSteps));
        Assert.False(turn.IsLeast);
    }

    /// <summary>
    /// Five steps moved 0.02 mm: 0.004 a step, so that eleven more bring 0.080 mm to 0.036, between the taught feelers. A slipping
    /// adjuster may grip again: of the sheet's 0.0005 in, which is up to 0.01397 mm, four on each side leave 0.0670 - 0.0559 of the least
    /// that is read, a fifth touches.
    /// A step is a tenth of two differences of readings with √(0.01²/12 + 0.003²) each: U = 2·√4·0.0041633/10 = 0.0016653. The
    /// steps that follow add eleven times that to the reading's own, and turned alike the lever nothing.
    /// </summary>
    [Fact]
    public void Evaluate_LearnedStepSmallerThanTheSheets_IsCountedWithAndHaltsBeforeTheSheetsCouldTouch()
    {
        var turn = Assert.IsType<Remedy.Turn>(AfterFive("0.100 mm", "0.080 mm").Remedy);

        Assert.Equal((-11, -11), (turn.LeftSteps, turn.RightSteps));
        Assert.False(turn.IsLeast);
        Assert.Equal(Mm(0.004m), turn.LearnedStep);
        Assert.Equal(8, turn.ReadAfter);
        Assert.All(turn.Predicted, each => Assert.Equal(Mm(0.036m), each.After));
        Assert.All(
            turn.Predicted,
            each => Assert.Equal(each.BeforeDoubt + (turn.LearnedStepDoubt!.Value * 11), each.AfterDoubt)
        );
        Assert.InRange(turn.LearnedStepDoubt!.Value.Millimetres, 0.001665m, 0.001666m);
    }

    /// <summary>
    /// 0.006 a step, and after it 0.028 mm in the middle: the left opens and the right closes. What slips on the left may grip on the
    /// right: each closing step takes up to 0.01397 there by half, and an opening one adds no more than the least that was learned.
    /// </summary>
    [Fact]
    public void Evaluate_LearnedStepWhereOneSideOpensAndOneCloses_HaltsThoughOnlyTheClosingSideGrips()
    {
        var turn = Assert.IsType<Remedy.Turn>(
            Judge(
                new Check.LimitOnQuantity(
                    MeasuredQuantity.Clearance,
                    LimitSource.Sheet,
                    CheckedPlaces.Stations
                ),
                Fine("left", "0.092 mm"),
                Fine("middle", "0.097 mm"),
                Fine("right", "0.192 mm"),
                Closed(Side.Both, 12),
                Fine("left", "0.020 mm"),
                Fine("middle", "0.025 mm"),
                Fine("right", "0.120 mm")
            ).Remedy
        );

        Assert.Equal(Mm(0.006m), turn.LearnedStep);
        Assert.True(turn is { LeftSteps: > 0, RightSteps: < 0 });
        Assert.Equal(6, turn.ReadAfter);

        static Reading Fine(string station, string value) =>
            Measured(MeasuredQuantity.Clearance, station, value, "DG-01");
    }

    [Fact]
    public void Evaluate_StepsThatOnceMovedMoreThanTheOtherTimeAllows_AreNotCountedWith()
    {
        var outcome = Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            Feeler("left", "0.010 in", true),
            Feeler("left", "0.011 in", false),
            Closed(Side.Both, 8),
            Feeler("left", "0.006 in", true),
            Feeler("left", "0.0065 in", false),
            Closed(Side.Both, 8),
            Feeler("left", "0.006 in", true),
            Feeler("left", "0.0065 in", false),
            Feeler("left", "0.006 in", true),
            Feeler("left", "0.0065 in", false),
            Feeler("right", "0.006 in", true),
            Feeler("right", "0.0065 in", false)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.StartsWith(
            "one time the steps moved it by more than the other time allows",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    /// <summary>
    /// A step of nothing, of the other way, or of 0.0015 ± 0.0004 mm (0.030 mm by twenty) where the sheet says 0.0127 is not
    /// counted with at all.
    /// </summary>
    [Theory]
    [InlineData("0.140 mm", 5, "0.140 mm")]
    [InlineData("0.140 mm", 5, "0.170 mm")]
    [InlineData("0.140 mm", 20, "0.110 mm")]
    public void Evaluate_StepThatHasToBeRepaired_IsNotCountedWith(string before, int steps, string after) =>
        Assert.Contains(
            "repair that first",
            Assert.IsType<Remedy.Act>(AfterTurning(before, steps, after).Remedy).What,
            StringComparison.Ordinal
        );
}
