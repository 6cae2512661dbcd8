using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// Trials of one job that moved a step by different amounts, and steps that move more than the sheet's 0.0127 mm and may still be
/// what it says. DG-01 reads to 0.0025 mm and better at 95 %, feelers hold 0.0001 in; stations a tenth of the width in.
/// </summary>
public class StepsThatDifferTests
{
    private static readonly Check Obtained = new Check.StepObtained(MeasuredQuantity.Clearance);

    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly LimitSheet FinishedByOpening = Sheet with
    {
        Adjusters =
        [
            .. Sheet.Adjusters.Select(each =>
                each.Kind is AdjusterKind.Clearance ? each with { Finish = FinishDirection.Opening } : each
            ),
        ],
    };

    private static Reading Gap(string station, string value) =>
        Measured(MeasuredQuantity.Clearance, station, value, "DG-01");

    private static Adjustment Closed(Side side, int count) =>
        Steps(AdjusterKind.Clearance, side, AdjustDirection.Close, count);

    /// <summary>Left and right closed alike; one side moved as told, the other not, or by much more.</summary>
    public static TheoryData<string, BenchEntry[]> Differing { get; } =
        new()
        {
            {
                "the left froze",
                [
                    Gap("left", "0.090 mm"),
                    Gap("right", "0.120 mm"),
                    Closed(Side.Left, 2),
                    Closed(Side.Right, 2),
                    Gap("left", "0.089 mm"),
                    Gap("right", "0.072 mm"),
                ]
            },
            {
                "the left as the sheet says, the right by half as much again",
                [
                    Gap("left", "0.140 mm"),
                    Gap("right", "0.140 mm"),
                    Closed(Side.Left, 2),
                    Closed(Side.Right, 2),
                    Gap("left", "0.114 mm"),
                    Gap("right", "0.098 mm"),
                ]
            },
            {
                "first the right by twice as much, then the left hardly",
                [
                    Gap("left", "0.107 mm"),
                    Gap("right", "0.105 mm"),
                    Closed(Side.Right, 2),
                    Gap("left", "0.103 mm"),
                    Gap("right", "0.060 mm"),
                    Closed(Side.Left, 2),
                    Gap("left", "0.102 mm"),
                    Gap("right", "0.059 mm"),
                ]
            },
        };

    [Theory]
    [MemberData(nameof(Differing))]
    public void Evaluate_TrialsThatDiffer_AreToldAndNothingIsCounted(string name, BenchEntry[] entries)
    {
        Assert.NotEmpty(name);
        var told = Judge(Obtained, entries);
        var limit = Judge(Limit, entries);

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (told.Verdict, told.Reason));
        Assert.Contains("left (51 mm)", told.Statement, StringComparison.Ordinal);
        Assert.Contains("right (459 mm)", told.Statement, StringComparison.Ordinal);
        Assert.Contains(
            "no count of steps is to be trusted",
            Assert.IsType<Remedy.Act>(limit.Remedy).What,
            StringComparison.Ordinal
        );
    }

    /// <summary>
    /// One step closed 0.116 to 0.100 mm at both: 0.016 mm, which may be the sheet's 0.0127. Closing as far as the sheet's step
    /// asks would touch with a step that may well be more: no closing on the way may reach the least gap by the most of a step.
    /// </summary>
    [Fact]
    public void Evaluate_StepThatMayBeMoreThanTheSheets_NeverClosesIntoContactByTheMostOfIt()
    {
        var outcome = Judge(
            Limit,
            Measured(MeasuredQuantity.Clearance, "left", "0.116 mm"),
            Measured(MeasuredQuantity.Clearance, "right", "0.116 mm"),
            Closed(Side.Both, 1),
            Measured(MeasuredQuantity.Clearance, "left", "0.100 mm"),
            Measured(MeasuredQuantity.Clearance, "right", "0.100 mm")
        );

        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        var (left, right) = (0, 0);
        foreach (var (side, opens) in turn.Sequence)
        {
            (left, right) =
                side is Side.Left ? (left + (opens ? 1 : -1), right) : (left, right + (opens ? 1 : -1));
            // u of a difference is √2·√(0.01²/12 + 0.003²) = 0.0058878: of the mean of two 0.0041633, U = 0.0083. A step of 0.0243 mm
            // is possible, and of a reading with at least U = 0.0083 no more than 0.0917 mm is sure.
            Assert.True(0.0917m + (0.0243m * Math.Min(left, right)) > 0m);
        }
    }

    /// <summary>
    /// Two steps closed 0.100 to 0.020 mm: 0.040 mm a step. 0.001 in stops, one step opens, 0.001 in passes: below 0.0011 in
    /// and a step of 0.040 mm, 0.068 mm, which is beyond 0.0025 in (0.0635 mm): not proven in.
    /// </summary>
    [Fact]
    public void Evaluate_TriesCarriedOverAStepThatWasProvenOther_MoveByThatStep()
    {
        var outcome = Judge(
            Limit,
            Gap("left", "0.100 mm"),
            Gap("right", "0.100 mm"),
            Closed(Side.Both, 2),
            Gap("left", "0.020 mm"),
            Gap("right", "0.020 mm"),
            Feeler("left", "0.001 in", false),
            Feeler("right", "0.001 in", false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", true),
            Feeler("right", "0.001 in", true)
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
    }

    /// <summary>
    /// 0.001 in stops, one step opens, 0.001 in passes: below 0.0011 in and 0.0005 in with half of its last digit, 0.00005 in:
    /// 0.00165 in.
    /// </summary>
    [Fact]
    public void Evaluate_TriesCarriedOverTheSheetsStep_MoveByHalfADigitEitherWay()
    {
        BenchEntry[] entries =
        [
            Feeler("left", "0.001 in", false),
            Feeler("right", "0.001 in", false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", true),
            Feeler("right", "0.001 in", true),
        ];

        var known = Frame(entries).Units[0].Of(MeasuredQuantity.Clearance)!.Left[0].Knowledge!.AsInterval();

        Assert.Equal(Length.FromInches(0.0009m), known.Lower!.Value.Value);
        Assert.Equal(Length.FromInches(0.00165m), known.Upper!.Value.Value);
    }

    /// <summary>
    /// 0.065 mm a step from 0.190 mm, and it is to finish by opening: two steps land inside, but three to come back one touch. It
    /// is free as it stands, so that opening until free helps nothing; one step comes nearest.
    /// </summary>
    [Fact]
    public void Evaluate_FreeButEveryWayInTouches_TellsTheNearestAndNotToOpen()
    {
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Gap("left", "0.060 mm"),
                    Gap("right", "0.060 mm"),
                    Open(Side.Both, 2),
                    Gap("left", "0.190 mm"),
                    Gap("right", "0.190 mm")
                )
            ),
            Context with
            {
                SettingOrders = [Order with { Schools = [new("sheet-a", ContactSchool.AirGap)] }],
            },
            Book(FinishedByOpening)
        );

        var cannot = Assert.IsType<Remedy.CannotBeTurnedIn>(Judge(Limit, frame).Remedy);

        Assert.StartsWith("it is free as it stands", cannot.WouldHelp, StringComparison.Ordinal);
        Assert.Equal((-1, -1), (cannot.Nearest?.LeftSteps, cannot.Nearest?.RightSteps));
    }

    /// <summary>
    /// Tried on the left alone, where it slips to 0.004 mm a step: the right may well take the sheet's 0.0127 mm, so that no
    /// single step that is told may touch even if all of them do.
    /// </summary>
    [Fact]
    public void Evaluate_StepLearnedOnOneSideAlone_IsNotCountedForTheOther()
    {
        var turn = Assert.IsType<Remedy.Turn>(
            Judge(
                Limit,
                Gap("left", "0.150 mm"),
                Gap("right", "0.090 mm"),
                Closed(Side.Left, 5),
                Gap("left", "0.130 mm"),
                Gap("right", "0.088 mm")
            ).Remedy
        );

        var (left, right) = (0, 0);
        foreach (var step in turn.Sequence)
        {
            (left, right) =
                step.Side is Side.Left
                    ? (left + (step.Opens ? 1 : -1), right)
                    : (left, right + (step.Opens ? 1 : -1));
            // U of DG-01 is 0.0025 mm; stations at a tenth of the width.
            Assert.True(0.088m - 0.0025m + (0.0127m * ((0.1m * left) + (0.9m * right))) > 0);
            Assert.True(0.130m - 0.0025m + (0.0127m * ((0.9m * left) + (0.1m * right))) > 0);
        }
    }

    /// <summary>
    /// 0.090 and 0.080 mm to ± 0.010 and more, to finish by opening. The sheet prints a step of 0.0005 in, which stands for up to
    /// 0.00055 in: closed six on the left on the way, the left end could touch by as many of 0.01397 mm.
    /// </summary>
    [Fact]
    public void Evaluate_StepOfTheSheet_CannotTouchOnTheWayByWhatItsLastDigitLeaves()
    {
        var coarse = Instruments[3] with
        {
            Id = new("DI-02"),
            Resolution = L("0.005 mm"),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.010 mm"), 2m),
        };
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Measured(MeasuredQuantity.Clearance, "left", "0.090 mm", "DI-02"),
                    Measured(MeasuredQuantity.Clearance, "right", "0.080 mm", "DI-02")
                )
            ) with
            {
                Instruments = [coarse],
            },
            Context,
            Book(FinishedByOpening)
        );

        var turn = Assert.IsType<Remedy.Turn>(Judge(Limit, frame).Remedy);

        Assert.True(turn.LeftSteps < 0 && turn.RightSteps < 0);
        var (leftOpened, leftClosed, rightOpened, rightClosed) = (0, 0, 0, 0);
        foreach (var step in turn.Sequence)
        {
            leftOpened += step is { Side: Side.Left, Opens: true } ? 1 : 0;
            leftClosed += step is { Side: Side.Left, Opens: false } ? 1 : 0;
            rightOpened += step is { Side: Side.Right, Opens: true } ? 1 : 0;
            rightClosed += step is { Side: Side.Right, Opens: false } ? 1 : 0;
            Assert.All(
                turn.Predicted,
                place =>
                {
                    var at = place.Place switch
                    {
                        "left end" => 0m,
                        "right end" => 1m,
                        "51 mm" => 0.1m,
                        _ => 0.9m,
                    };
                    var least = place.Before - (place.BeforeDoubt ?? Length.Zero);
                    var left = (leftOpened * 0.01143m) - (leftClosed * 0.01397m);
                    var right = (rightOpened * 0.01143m) - (rightClosed * 0.01397m);
                    Assert.True(least.Millimetres + ((1 - at) * left) + (at * right) > 0);
                }
            );
        }
    }

    /// <summary>
    /// The gauge leaves ± 0.03 mm and the limits 0.0255 either way: what can be told without touching is a part of the way that by
    /// its own readings still lies outside. It is said, with what binds.
    /// </summary>
    [Fact]
    public void Evaluate_PartOfTheWay_SaysWhatStaysOutAndWhatBinds()
    {
        var coarse = Instruments[3] with
        {
            Id = new("DI-02"),
            Resolution = L("0.01 mm"),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.03 mm"), 2m),
        };
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Measured(MeasuredQuantity.Clearance, "left", "0.120 mm", "DI-02"),
                    Measured(MeasuredQuantity.Clearance, "right", "0.010 mm", "DI-02")
                )
            ) with
            {
                Instruments = [coarse],
            },
            Context,
            Book()
        );

        var turn = Assert.IsType<Remedy.Turn>(Judge(Limit, frame).Remedy);

        Assert.True(turn.IsLeast);
        Assert.Contains("how well the gap is known: ± 0.031 mm", turn.Binds, StringComparison.Ordinal);
        Assert.Equal(
            ["left end", "51 mm", "459 mm", "right end"],
            turn.StillOut.Select(place => place.Place)
        );
    }
}
