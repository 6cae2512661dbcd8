using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Heights that no move is told of, whatever rule asks: target 4.00 ± 0.10 mm.</summary>
public class NoMoveTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check InRange = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.Sheet,
        CheckedPlaces.Stations
    );

    private static LimitSheet Ranged(string lower, string upper) =>
        Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(each =>
                    each.Quantity is MeasuredQuantity.HeightOfCut
                        ? each with
                        {
                            Lower = D(lower),
                            Upper = D(upper),
                        }
                        : each
                ),
            ],
        };

    private static Remedy? Told(Check check, LimitSheet sheet, params BenchEntry[] entries) =>
        Judge(check, FrameBuilder.Build(Record(Unit(entries)), Context, Book(sheet))).Remedy;

    /// <summary>A range from 6.35 mm, or one up to 3.50 mm: no height keeps it and the target, and none is told to move towards either.</summary>
    [Theory]
    [InlineData("6.35 mm", "20.00 mm", "4.20 mm")]
    [InlineData("6.35 mm", "20.00 mm", "6.00 mm")]
    [InlineData("2.00 mm", "3.50 mm", "3.60 mm")]
    [InlineData("2.00 mm", "3.50 mm", "1.50 mm")]
    public void Evaluate_TargetOutsideTheRange_NamesBothAndTellsNoMove(
        string lower,
        string upper,
        string height
    )
    {
        foreach (var check in new[] { OnTarget, InRange })
        {
            var cannot = Assert.IsType<Remedy.CannotBeTurnedIn>(
                Told(check, Ranged(lower, upper), Height("left", height), Height("right", height))
            );

            Assert.Equal(
                $"what is asked for (limits 3.90 mm to 4.10 mm) lies outside what this kind of unit can be set to (limits {lower} to {upper})",
                cannot.Binding
            );
            Assert.Null(cannot.Nearest);
        }
    }

    /// <summary>A range up to 3.95 mm leaves 3.90 to 3.95 mm: there it is set.</summary>
    [Fact]
    public void Evaluate_TargetPartlyInsideTheRange_IsSetWhereBothHold()
    {
        var move = Assert.IsType<Remedy.Move>(
            Told(
                OnTarget,
                Ranged("2.00 mm", "3.95 mm"),
                Height("left", "3.60 mm"),
                Height("right", "3.60 mm")
            )
        );

        Assert.InRange(3.60m + move.Left.Millimetres, 3.90m, 3.95m);
    }

    [Fact]
    public void Evaluate_OutAtNoStation_IsReadAgainAndNotMovedByNothing()
    {
        var again = Assert.IsType<Remedy.ReadAgain>(
            Told(
                OnTarget,
                Sheet,
                Height("left", "4.00 mm"),
                Height("right", "4.00 mm"),
                Measured(MeasuredQuantity.HeightOfCut, null, "4.20 mm")
            )
        );

        Assert.Equal(["across"], again.Places.AsEnumerable());
        Assert.Contains(
            "does not agree with what was read at the other places",
            again.Why,
            StringComparison.Ordinal
        );
    }

    /// <summary>The ends on target, the middle read with no gauge named: nothing is moved out of that, by whatever rule.</summary>
    [Fact]
    public void Evaluate_MiddleOfWhichNothingIsKnown_MovesNothing()
    {
        BenchEntry[] read =
        [
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm"),
            Height("middle", "5.00 mm", with: null),
        ];

        foreach (
            var check in new[]
            {
                OnTarget,
                new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides),
            }
        )
        {
            var outcome = Judge(check, FrameBuilder.Build(Record(Unit(read)), Context, Book()));

            Assert.Equal(Verdict.Unproven, outcome.Verdict);
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        }
    }

    /// <summary>Ends out by a gauge that is known, the middle by one that is not: what tells how far is read first.</summary>
    [Fact]
    public void Evaluate_EndsOutAndMiddleUnknown_ReadsTheMiddleFirst() =>
        Assert.Equal(
            ["middle (255 mm)"],
            Assert
                .IsType<Remedy.ReadAgain>(
                    Told(
                        OnTarget,
                        Sheet,
                        Height("left", "4.30 mm"),
                        Height("right", "4.30 mm"),
                        Height("middle", "5.00 mm", with: null)
                    )
                )
                .Places.AsEnumerable()
        );

    /// <summary>
    /// The second unit is bowed by 0.30 mm, more than the 0.20 mm that the limits leave: neither its own rules nor the plan for the machine
    /// move it.
    /// </summary>
    [Theory]
    [InlineData(SpreadAcross.Units)]
    [InlineData(SpreadAcross.AdjacentEnds)]
    public void Evaluate_UnitTooBowedToBeSet_IsNotMovedByThePlanForTheMachine(SpreadAcross across)
    {
        var frame = FrameBuilder.Build(
            Record(
                Unit(Height("left", "4.00 mm"), Height("right", "4.00 mm")),
                Unit(Height("left", "4.00 mm"), Height("middle", "4.30 mm"), Height("right", "4.00 mm")) with
                {
                    Id = new("U-01-2"),
                    Position = 2,
                }
            ),
            Context,
            Book()
        );

        var own = CheckEvaluation.Evaluate(RuleFor(OnTarget), frame, frame.Units[1]);
        var set = CheckEvaluation.Evaluate(
            RuleFor(new Check.Spread(MeasuredQuantity.HeightOfCut, across)),
            frame,
            null
        );

        Assert.IsType<Remedy.CannotBeTurnedIn>(own.Remedy);
        Assert.NotEqual(Verdict.Met, set.Verdict);
        Assert.StartsWith(
            "U-01-2 cannot be turned in: the line is bowed",
            Assert.IsType<Remedy.Act>(set.Remedy).What,
            StringComparison.Ordinal
        );
    }
}
