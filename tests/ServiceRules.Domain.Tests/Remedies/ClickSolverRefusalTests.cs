using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>What stands in the way of a plan, and what does not.</summary>
public sealed class ClickSolverRefusalTests
{
    private const decimal Step = 0.0127m;

    private static ClickTask Task(params ImmutableArray<StationReading> readings) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step),
            Readings = readings,
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)),
            Target = Mm(0.03175m),
        };

    private static ClickSolution.Infeasible Refused(ClickTask task) =>
        Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

    private static StationReading AtLeast(decimal station, decimal value) =>
        new(Mm(station), LengthInterval.AtLeast(Mm(value)));

    private static StationReading LessThan(decimal station, decimal value) =>
        new(Mm(station), LengthInterval.LessThan(Mm(value)));

    private static StationReading Above(decimal station, decimal value, decimal most)
    {
        Assert.True(
            LengthInterval.TryCreate(
                IntervalEnd.Open(Mm(value)),
                IntervalEnd.Closed(Mm(most)),
                out var interval
            )
        );
        return new(Mm(station), interval);
    }

    [Fact]
    public void Solve_OneIntervalWiderThanTheZone_AsksForABetterReading() =>
        Assert.Equal(
            BindingConstraint.KnowledgeTooWide,
            Refused(Task(Interval(0m, 0.05m, 0.07m), Measured(500m, 0.06m))).Binding
        );

    [Fact]
    public void Solve_OneSideUnknownThatTheZoneLimits_AsksForABetterReadingAndNamesNoSetting()
    {
        var noTop = Refused(Task(AtLeast(0m, 0.03m), Measured(500m, 0.03m)));
        var noBottom = Refused(Task(LessThan(0m, 0.03m), Measured(500m, 0.03m)));

        Assert.Equal(BindingConstraint.KnowledgeTooWide, noTop.Binding);
        Assert.Null(noTop.Nearest);
        Assert.Equal(BindingConstraint.KnowledgeTooWide, noBottom.Binding);
        Assert.Null(noBottom.Nearest);
    }

    [Fact]
    public void Solve_OneSideUnknownThatTheZoneLeavesFree_IsNoHindrance()
    {
        var up = Task(AtLeast(0m, 0.03m), Measured(500m, 0.03m)) with
        {
            Zone = ToleranceZone.AtLeast(Mm(0.04m)),
            Target = Mm(0.04m),
        };
        var down = Task(LessThan(0m, 0.03m), Measured(500m, 0.03m)) with
        {
            Zone = ToleranceZone.AtMost(Mm(0.02m)),
            Target = Mm(0.02m),
        };

        Assert.Equal((1, 1), Steps(up));
        Assert.Equal((-1, -1), Steps(down));
        // What may be nothing may touch already.
        Assert.Equal(BindingConstraint.KnowledgeTooWide, Refused(down with { KeepClear = true }).Binding);

        static (int, int) Steps(ClickTask task)
        {
            var plan = Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));
            return (plan.LeftSteps, plan.RightSteps);
        }
    }

    /// <summary>Crowned by 0.0127, as wide as the zone is: it fits, but 0.03 down to 0.0254 is no whole step.</summary>
    [Theory]
    [InlineData(0.0427, BindingConstraint.StepSize)]
    [InlineData(0.0427001, BindingConstraint.Straightness)]
    public void Solve_BowAsWideAsTheZone_IsNotTooWide(decimal middle, BindingConstraint binding) =>
        Assert.Equal(
            binding,
            Refused(Task(Measured(0m, 0.03m), Measured(250m, middle), Measured(500m, 0.03m))).Binding
        );

    /// <summary>Tilted by far more than the zone is wide, and bowed by less: tilt can be turned out, with travel enough.</summary>
    [Fact]
    public void Solve_TiltedBeyondTheTravel_BindsOnTravel()
    {
        var task = Task(Measured(0m, 0.2m), Measured(250m, 0.252m), Measured(500m, 0.3m)) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step) with { Travel = 5 },
        };

        Assert.Equal(BindingConstraint.Travel, Refused(task).Binding);
    }

    [Theory]
    [InlineData(0.2, 0.03)]
    [InlineData(0.03, 0.2)]
    [InlineData(-0.2, 0.03)]
    [InlineData(0.03, -0.2)]
    public void Solve_OneSideBeyondTheTravel_BindsOnTravel(decimal left, decimal right)
    {
        var task = Task(Measured(0m, left), Measured(500m, right)) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step) with { Travel = 5 },
        };

        Assert.Equal(BindingConstraint.Travel, Refused(task).Binding);
    }

    /// <summary>
    /// From 0.11 six steps lead in, one more than the travel has. Six of 0.02, which a step may take, would touch: how far it is to
    /// turn is told all the same, and of the way what is sure not to touch.
    /// </summary>
    [Fact]
    public void Solve_BeyondTheTravelWhereAllOfItMayTouch_BindsOnTravel()
    {
        var refused = Refused(
            Task(Measured(0m, 0.11m), Measured(500m, 0.11m)) with
            {
                Adjusters = ClickSolverTests.Pair(0m, 500m, Step) with { Travel = 5, MostStep = Mm(0.02m) },
                KeepClear = true,
            }
        );

        Assert.Equal(BindingConstraint.Travel, refused.Binding);
        Assert.Equal((-5, -5), (refused.Nearest!.LeftSteps, refused.Nearest.RightSteps));
    }

    /// <summary>
    /// Adjusters 100 mm beyond the stations; the left five steps short, the right in. One closed on the right would bring the left
    /// nearer and the right out, at 0.010. Where a gap is turned in parts it stays in, by one opened: 0.0318.
    /// </summary>
    [Theory]
    [InlineData(true, 1)]
    [InlineData(false, -5)]
    public void Nearest_BeyondTheTravelOfAGap_LeavesInWhatIsIn(bool isGap, int right)
    {
        var refused = Refused(
            Task(Measured(0m, 0.2m), Measured(500m, 0.03m)) with
            {
                Adjusters = ClickSolverTests.Pair(-100m, 600m, Step) with { Travel = 5 },
                KeepClear = isGap,
            }
        );

        Assert.Equal(BindingConstraint.Travel, refused.Binding);
        Assert.Equal((-5, right), (refused.Nearest!.LeftSteps, refused.Nearest.RightSteps));
        Assert.Equal(isGap, refused.Nearest.KeepsIn);
    }

    /// <summary>Five steps reach the zone exactly, on either side and in either direction.</summary>
    [Theory]
    [InlineData(0.1016, 0.03)]
    [InlineData(0.03, 0.1016)]
    [InlineData(-0.0381, 0.03)]
    [InlineData(0.03, -0.0381)]
    public void Solve_OneSideAtTheEndOfTheTravel_IsTurnedThere(decimal left, decimal right)
    {
        var task = Task(Measured(0m, left), Measured(500m, right)) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step) with { Travel = 5 },
        };

        Assert.Equal(5, Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task)).TotalSteps);
    }

    /// <summary>
    /// From 0.0254 one step closing and, approached opening, one more: down to zero, and back. Read as 0.0254 it touches
    /// there; known to lie above 0.0254 it does not. Only the left side is turned.
    /// </summary>
    [Fact]
    public void Solve_OvershootDownToZero_IsBarredOnlyWhereZeroIsPossible()
    {
        ClickTask Down(StationReading left) =>
            Task(left, Measured(500m, Step)) with
            {
                Adjusters = ClickSolverTests.Pair(0m, 500m, Step, Approach.Opening),
                Zone = ToleranceZone.Between(Mm(0.01m), Mm(0.015m)),
                Target = Mm(Step),
                KeepClear = true,
            };

        var barred = Refused(Down(Measured(0m, 0.0254m)));
        Assert.Equal(BindingConstraint.ContactOnTheWay, barred.Binding);
        Assert.True(barred.StartsFree);
        Assert.StartsWith("it is free as it stands", barred.WouldHelp, StringComparison.Ordinal);
        var allowed = Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(Down(Above(0m, 0.0254m, 0.0256m))));
        Assert.Equal((-1, 0, 3), (allowed.LeftSteps, allowed.RightSteps, allowed.TotalSteps));
    }

    /// <summary>The right side would have to come down from 0.0254 past zero as above; the left stands in contact.</summary>
    [Fact]
    public void Solve_OneEndInContactAndNoWayForTheOther_IsNotFreeAsItStands()
    {
        var task = Task(Measured(0m, 0m), Measured(500m, 0.0254m)) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step, Approach.Opening),
            Zone = ToleranceZone.Between(Mm(0.01m), Mm(0.015m)),
            Target = Mm(Step),
            KeepClear = true,
        };

        var refused = Refused(task);

        Assert.Equal(BindingConstraint.ContactOnTheWay, refused.Binding);
        Assert.False(refused.StartsFree);
    }

    /// <summary>
    /// The left in the zone, the right five steps open and approached opening, three too far and back. Four closing steps would do,
    /// but go seven down, past zero; so do three and two; one goes four down, to one step, and back to four: 0.0508, which misses
    /// by 0.0358. The left stays.
    /// </summary>
    [Fact]
    public void Nearest_WhereWhatIsBestIsBarredByContact_IsTheNextMoreOpen()
    {
        var task = Task(Measured(0m, Step), Measured(500m, 5 * Step)) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step, Approach.Opening) with { TakeUp = 3 },
            Zone = ToleranceZone.Between(Mm(0.01m), Mm(0.015m)),
            Target = Mm(Step),
            KeepClear = true,
        };

        var refused = Refused(task);

        Assert.Equal(BindingConstraint.ContactOnTheWay, refused.Binding);
        Assert.Equal((0, -1), (refused.Nearest!.LeftSteps, refused.Nearest.RightSteps));
        Assert.Equal(Mm(0.0358m), refused.Nearest.Excess);
    }

    /// <summary>Both ends in contact: opening one leaves the other as deep as it was, which is no deeper.</summary>
    [Fact]
    public void Solve_BothEndsInContact_OpensThemAlternately()
    {
        var plan = Assert.IsType<ClickSolution.Plan>(
            ClickSolver.Solve(Task(Measured(0m, -0.006m), Measured(500m, -0.006m)) with { KeepClear = true })
        );

        Assert.Equal(
            "L+ R+ L+ R+ L+ R+",
            string.Join(
                ' ',
                plan.Sequence.Select(s => (s.Side == Side.Left ? "L" : "R") + (s.Opens ? "+" : "-"))
            )
        );
    }

    [Theory]
    [InlineData(BindingConstraint.EndsUnknown, "read a second station")]
    [InlineData(BindingConstraint.KnowledgeTooWide, "finer gauge")]
    [InlineData(BindingConstraint.Straightness, "grind")]
    [InlineData(BindingConstraint.LinesApart, "no adjuster moves one blade alone")]
    [InlineData(BindingConstraint.Travel, "look at how the unit sits")]
    [InlineData(BindingConstraint.StepSize, "shim by less than a step")]
    [InlineData(BindingConstraint.ContactAtTheEnd, "asks for contact where none is wanted")]
    [InlineData(BindingConstraint.ContactOnTheWay, "open both sides until free first")]
    public void WouldHelp_OfEveryHindrance_IsToldInWords(BindingConstraint binding, string advice) =>
        Assert.Contains(
            advice,
            new ClickSolution.Infeasible(binding, null).WouldHelp,
            StringComparison.Ordinal
        );

    [Fact]
    public void WouldHelp_OfAHindranceWithoutAdvice_SaysSo()
    {
        var unknown = new ClickSolution.Infeasible((BindingConstraint)99, null);

        Assert.Equal(
            "every binding constraint has its advice",
            Assert.Throws<InvalidOperationException>(() => unknown.WouldHelp).Message
        );
    }
}
