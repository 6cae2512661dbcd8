using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Tests.Reports;

public class RemedyTextTests
{
    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    private static string Said(Remedy remedy, UnitSystem system = UnitSystem.Metric) =>
        string.Join(" ", RemedyText.Of(text => text, remedy, system));

    [Fact]
    public void Of_NoWholeSteps_TellsTheNearest() =>
        Assert.Equal(
            "Cannot be turned in: one step is too coarse. What would help: shim. "
                + "Nearest: left 2 steps open, right 1 step open: leaves 0.004 mm too wide at right end.",
            Said(
                new Remedy.CannotBeTurnedIn("one step is too coarse", "shim")
                {
                    Nearest = new(AdjusterKind.Clearance, 2, 1, "right end", Mm(0.004m), true),
                }
            )
        );

    [Theory]
    [InlineData(AdjusterKind.Clearance, 0.1, false, "leaves 0.10 mm too tight at 25 mm")]
    [InlineData(AdjusterKind.Height, 0.1, true, "leaves 0.10 mm too high at 25 mm")]
    [InlineData(AdjusterKind.Height, 0.1, false, "leaves 0.10 mm too low at 25 mm")]
    [InlineData(AdjusterKind.Clearance, 0, true, "inside the limits, but touching")]
    public void Of_TheNearest_SaysHowItMisses(AdjusterKind adjuster, decimal by, bool above, string said) =>
        Assert.EndsWith(
            $"Nearest: right 1 step {(adjuster is AdjusterKind.Height ? "down" : "close")}, the left stays: {said}.",
            Said(
                new Remedy.CannotBeTurnedIn("one step is too coarse", "shim")
                {
                    Nearest = new(adjuster, 0, -1, "25 mm", Mm(by), above),
                }
            ),
            StringComparison.Ordinal
        );

    /// <summary>Positive takes the roller further from the edge; up and down turn about with the unit on the bench.</summary>
    [Theory]
    [InlineData(-0.25, "nearer to")]
    [InlineData(0.25, "further from")]
    public void Of_AMoveOfTheFrontRoller_IsToldFromTheEdge(decimal move, string said) =>
        Assert.Equal(
            $"Move front roller: right 0.25 mm {said} the cutting edge, the left stays. ",
            Said(new Remedy.Move(AdjusterKind.FrontRoller, Mm(0m), Mm(move), []))
        );

    [Theory]
    [InlineData(4, 8, "half a turn")]
    [InlineData(2, 8, "a quarter turn")]
    [InlineData(3, 8, "3/8 of a turn")]
    [InlineData(8, 8, "1 turn")]
    [InlineData(16, 8, "2 turns")]
    [InlineData(10, 8, "1 1/4 turns")]
    [InlineData(5, 12, "5/12 of a turn")]
    public void Of_AMoveOfAScrew_TellsTurns(int parts, int perTurn, string said) =>
        Assert.Equal(
            $"Move height of cut: left {said} up (0.25 mm), the right stays. ",
            Said(
                new Remedy.Move(AdjusterKind.Height, Mm(0.26m), Mm(0.001m), [])
                {
                    LeftTurns = new(parts, perTurn, Mm(0.25m)),
                    RightTurns = new(0, perTurn, Mm(0m)),
                }
            )
        );

    [Fact]
    public void Of_AMoveWithoutAThread_TellsTheDistance() =>
        Assert.Equal(
            "Move height of cut: both ends down 0.20 mm. Then read again: height of cut.",
            Said(new Remedy.Move(AdjusterKind.Height, Mm(-0.2m), Mm(-0.2m), [MeasuredQuantity.HeightOfCut]))
        );

    [Fact]
    public void Of_UnitsToMatch_TellsEachMoveAndWhatStays() =>
        Assert.Equal(
            "Move height of cut: U-3 left down 0.20 mm, right down 0.10 mm; U-4 both ends up 0.30 mm. Leave U-1 and U-2; then read the moved ones again.",
            Said(
                new Remedy.MoveUnits(
                    AdjusterKind.Height,
                    [new("U-3", Mm(-0.2m), Mm(-0.1m)), new("U-4", Mm(0.3m), Mm(0.3m))],
                    ["U-1", "U-2"]
                )
            )
        );

    [Theory]
    [InlineData(0, "Then read them again.")]
    [InlineData(1, "Leave U-1; then read the moved ones again.")]
    [InlineData(4, "Leave U-1, U-2, U-3 and U-4; then read the moved ones again.")]
    [InlineData(5, "Leave the others; then read the moved ones again.")]
    public void Of_UnitsThatStay_NamesAFew(int count, string said) =>
        Assert.EndsWith(
            said,
            Said(
                new Remedy.MoveUnits(
                    AdjusterKind.Height,
                    [new("U-9", Mm(0.1m), Mm(0.1m))],
                    [.. Enumerable.Range(1, count).Select(n => $"U-{n}")]
                )
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Of_StepsCountedByALearnedStep_SaysSo() =>
        Assert.Contains(
            "Counted with 0.01 mm a step, as read before and after the steps already turned",
            Said(
                new Remedy.Turn(AdjusterKind.Clearance, -1, 0, [new(Side.Left, false)], [], [])
                {
                    LearnedStep = Mm(0.010m),
                }
            ),
            StringComparison.Ordinal
        );

    /// <summary>A step that proved to be another has a cause, and with the cause goes the count.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Of_StepsCountedByALearnedStep_SaysFirstToSeeWhy(bool isLearned) =>
        Assert.Equal(
            isLearned,
            Said(
                    new Remedy.Turn(AdjusterKind.Clearance, -1, 0, [new(Side.Left, false)], [], [])
                    {
                        LearnedStep = isLearned ? Mm(0.010m) : null,
                    }
                )
                .StartsWith(
                    "First see why a step does not move what the sheet says: look for a loose pivot, a worn bearing or a slipping "
                        + "adjuster.",
                    StringComparison.Ordinal
                )
        );

    [Fact]
    public void Of_Predictions_TellHowFarTheyMayBeOff() =>
        Assert.Contains(
            "Predicted: left end from 0.0900 to 0.0463 mm ± 0.0049 mm; 51 mm from 0.09 to 0.0463 mm.",
            Said(
                new Remedy.Turn(
                    AdjusterKind.Clearance,
                    -7,
                    -7,
                    [],
                    [
                        // 0.04625 rounded once, ties to even, is 0.0462; what stands behind it is a little more.
                        new("left end", Mm(0.09m), Mm(0.046250000001m))
                        {
                            BeforeDoubt = Mm(0.0029m),
                            AfterDoubt = Mm(0.00486m),
                        },
                        new("51 mm", Mm(0.09m), Mm(0.046250000001m)),
                    ],
                    []
                )
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Of_PredictedLeast_IsRoundedDown() =>
        Assert.Contains(
            "Predicted at least: left end from 0.0871 to 0.0363 mm.",
            Said(
                new Remedy.Turn(
                    AdjusterKind.Clearance,
                    -4,
                    -4,
                    [],
                    [new("left end", Mm(0.08719m), Mm(0.03639m))],
                    []
                )
                {
                    IsLeast = true,
                }
            ),
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData(12, "Read again after the first 12 steps of these")]
    [InlineData(0, "Read again after every single one of these steps")]
    public void Of_StepsThatCouldTouchWhereTheAdjusterGripsAgain_SayWhenToRead(int after, string said) =>
        Assert.Contains(
            said,
            Said(
                new Remedy.Turn(AdjusterKind.Clearance, -1, 0, [new(Side.Left, false)], [], [])
                {
                    LearnedStep = Mm(0.00625m),
                    LearnedStepDoubt = Mm(0.000267m),
                    ReadAfter = after,
                }
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Of_NearestSetting_TellsHowFarItMayBeOff() =>
        Assert.Contains(
            "leaves 0.0400 mm ± 0.0029 mm too wide at 255 mm",
            Said(
                new Remedy.CannotBeTurnedIn("bow", "grind")
                {
                    Nearest = new(AdjusterKind.Clearance, 0, 0, "255 mm", Mm(0.04m), true)
                    {
                        Doubt = Mm(0.00281m),
                    },
                }
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Of_TurnsCountedByALearnedRatio_SaySo()
    {
        const string said =
            "with 0.025 mm for 1/10 of a turn, as read before and after what was already turned in this job.";
        var move = new Remedy.Move(AdjusterKind.Height, Mm(-0.2m), Mm(-0.2m), [])
        {
            LeftTurns = new(-8, 10, Mm(-0.2m)),
            RightTurns = new(-8, 10, Mm(-0.2m)),
        };
        var unit = new UnitMove("U-9", Mm(-0.2m), Mm(-0.2m)) { LeftTurns = move.LeftTurns };

        Assert.Contains(
            $"Counted {said}",
            Said(move with { LearnedPart = Mm(0.025m) }),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("Counted", Said(move), StringComparison.Ordinal);
        Assert.Contains(
            $"Counted on U-9 {said}",
            Said(new Remedy.MoveUnits(AdjusterKind.Height, [unit with { LearnedPart = Mm(0.025m) }], [])),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Of_StepsCountedFromTheLeast_SaySo() =>
        Assert.Contains(
            "Predicted at least: left end from 0.10 to 0.09 mm. Counted from the least that the readings leave",
            Said(
                new Remedy.Turn(
                    AdjusterKind.Clearance,
                    -1,
                    0,
                    [new(Side.Left, false)],
                    [new("left end", Mm(0.10m), Mm(0.09m))],
                    []
                )
                {
                    IsLeast = true,
                }
            ),
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("LLRL", "close left, left, right, left.")]
    [InlineData("LRLR", "close left and right in turn, 2 steps each.")]
    [InlineData("LLLLLRLRL", "close left 5 steps, then right and left in turn, 2 steps each.")]
    [InlineData("RRRRRR", "close right 6 steps.")]
    [InlineData(
        "LLLRLRLR",
        "close left 3 steps, then right and left in turn, 2 steps each, then right 1 step."
    )]
    public void Of_ManySteps_CountsThem(string sides, string expected)
    {
        var sequence = sides.Select(side => new SingleStep(side == 'L' ? Side.Left : Side.Right, false));
        var turn = new Remedy.Turn(
            AdjusterKind.Clearance,
            -sides.Count(side => side == 'L'),
            -sides.Count(side => side == 'R'),
            [.. sequence],
            [],
            []
        );

        Assert.Contains(
            "One step at a time: " + expected,
            RemedyText.Of(text => text, turn, UnitSystem.Metric)
        );
    }

    [Fact]
    public void Of_TheNearestThatMissesSeveralPlaces_SaysThatTheOthersMissByNoMore() =>
        Assert.EndsWith(
            "Nearest: as it stands: leaves 0.004 mm too wide at right end, and by no more than that at 255 mm and 459 mm.",
            Said(
                new Remedy.CannotBeTurnedIn("one step is too coarse", "shim")
                {
                    Nearest = new(AdjusterKind.Clearance, 0, 0, "right end", Mm(0.004m), true)
                    {
                        Also = ["255 mm", "459 mm"],
                    },
                }
            ),
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData(2, 0, "Turn clearance: left 2 steps open, the right stays.")]
    [InlineData(0, -1, "Turn clearance: right 1 step close, the left stays.")]
    [InlineData(2, -1, "Turn clearance: left 2 steps open, right 1 step close.")]
    public void Of_StepsOfOneSide_SaysThatTheOtherStays(int left, int right, string said) =>
        Assert.StartsWith(
            said,
            Said(new Remedy.Turn(AdjusterKind.Clearance, left, right, [], [], [])),
            StringComparison.Ordinal
        );

    [Fact]
    public void Of_APartOfTheWay_TellsWhatStaysOutAndWhatBinds() =>
        Assert.Equal(
            "Turn clearance: left 2 steps close, right 2 steps close. By what was read this leaves 25 mm at 0.06 mm, still outside what "
                + "is aimed for: the nearest that is sure not to touch. What binds is that nothing may touch on the way.",
            Said(
                new Remedy.Turn(AdjusterKind.Clearance, -2, -2, [], [], [])
                {
                    IsLeast = true,
                    StillOut = [new("25 mm", Mm(0.09m), Mm(0.06m))],
                    Binds = "that nothing may touch on the way",
                }
            )
        );

    [Fact]
    public void Of_AStepLearnedOnOneSide_SaysWhich() =>
        Assert.Contains(
            "already turned on the left; the sheet's step does not hold there. The other side was not tried: contact is counted with "
                + "the sheet's step as well.",
            Said(
                new Remedy.Turn(AdjusterKind.Clearance, -2, -2, [], [], [])
                {
                    LearnedStep = Mm(0.02m),
                    LearnedSide = Side.Left,
                }
            ),
            StringComparison.Ordinal
        );
}
