using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>What the solver counts on where gaps are known by their bounds, and where it names no setting.</summary>
public sealed class ClickSolverDoubtTests
{
    private const decimal Step = 0.0127m;

    private static ClickTask Task { get; } =
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, Step),
            Readings = [Measured(0m, 0.0762m), Measured(500m, Step)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)),
            Target = Mm(0.03175m),
            KeepClear = true,
        };

    /// <summary>The same as from the left: what opens comes first, since the gaps are estimates.</summary>
    [Fact]
    public void Solve_EstimatesWhereTheRightSideOpens_OpensItFirst()
    {
        var task = Task with { Bounds = [Interval(0m, 0.0635m, 0.0889m), Interval(500m, 0.01m, 0.0154m)] };

        Assert.Equal(new SingleStep(Side.Right, true), Plan(task).Sequence[0]);
    }

    [Fact]
    public void Solve_Estimates_LandsWithWhatIsReallyKnown()
    {
        var task = Task with { Bounds = [Interval(0m, 0.0635m, 0.0889m), Interval(500m, 0.01m, 0.0154m)] };

        var left = Plan(task).Landings.First(each => each.Place is LandingPlace.Station);

        Assert.Equal(Mm(0.0762m), Assert.IsType<MeasuredValue>(left.Before).Value);
        Assert.Equal(LengthInterval.Between(Mm(0.0635m), Mm(0.0889m)), left.Known);
    }

    [Fact]
    public void Solve_EstimatesWhereOneSideStays_TurnsTheOther()
    {
        var task = Task with
        {
            Readings = [Measured(0m, 0.0762m), Measured(500m, 0.03m)],
            Bounds = [Interval(0m, 0.0635m, 0.0889m), Interval(500m, 0.0254m, 0.0346m)],
        };

        Assert.Equal((-3, 0), (Plan(task).LeftSteps, Plan(task).RightSteps));
    }

    /// <summary>
    /// Ends at 0.0133 by the line, but 0.02 - 0.01·(250/150)² below zero by the parabola: contact is counted there, so the
    /// unit is opened although every station lies inside.
    /// </summary>
    [Fact]
    public void Solve_ABowThatMayTouchBeyondTheStations_IsOpenedClear()
    {
        var bowed = Task with
        {
            Readings = [Measured(100m, 0.01m), Measured(250m, 0.02m), Measured(400m, 0.01m)],
            Zone = ToleranceZone.AtLeast(Mm(0.005m)),
            Target = Mm(0.005m),
            StationsOnly = true,
        };

        Assert.Equal((1, 1), (Plan(bowed).LeftSteps, Plan(bowed).RightSteps));
        Assert.Empty(Plan(bowed with { KeepClear = false }).Sequence);
    }

    /// <summary>
    /// Two readings of U 0.01 lie on a line whatever they are. At the end 100 mm beyond the left one it is known to
    /// 0.01·√(16 + 1)/3 = 0.0137, so 0.0150 is clear; only if both were off the worst way at once, by 0.0167, would it touch.
    /// </summary>
    [Fact]
    public void Solve_TwoReadingsInDoubt_AreExtrapolatedByTheirUncertainty()
    {
        var task = Task with
        {
            Readings = [Measured(100m, 0.015m, 0.005m), Measured(400m, 0.015m, 0.005m)],
            Zone = ToleranceZone.Between(Mm(0.01m), Mm(0.02m)),
            Target = Mm(0.015m),
            StationsOnly = true,
        };

        Assert.Empty(Plan(task).Sequence);
    }

    /// <summary>Where contact is allowed the nearest setting may be one in contact.</summary>
    [Fact]
    public void Nearest_WhereContactIsAllowed_MayTouch()
    {
        var task = Task with
        {
            Readings = [Measured(0m, 0m), Measured(500m, 0m)],
            Zone = ToleranceZone.Between(Mm(-0.0120m), Mm(-0.0115m)),
            Target = Mm(-0.0117m),
            KeepClear = false,
        };

        var nearest = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Nearest;

        Assert.Equal((-1, -1), (nearest!.LeftSteps, nearest.RightSteps));
    }

    /// <summary>One place may be in contact of any depth: no setting is named, although the zone asks nothing from below.</summary>
    [Fact]
    public void Nearest_WhereContactOfOnePlaceIsUnknown_IsNone()
    {
        Assert.True(LengthInterval.TryCreate(null, IntervalEnd.Closed(Mm(0.08m)), out var atMost));
        var task = Task with
        {
            Readings = [Measured(0m, 0.06m), new(Mm(500m), atMost)],
            Zone = ToleranceZone.AtMost(Mm(0.05m)),
            Target = Mm(0.03m),
            StationsOnly = true,
        };

        Assert.Null(Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Nearest);
    }

    /// <summary>
    /// Stations inboard, one of them 2362 steps open: no bow and no step too coarse, only further than anybody would turn.
    /// </summary>
    [Theory]
    [InlineData(30, 0.03)]
    [InlineData(0.03, 30)]
    public void Solve_FarBeyondAnyTravelAtInboardStations_BindsOnTravel(decimal left, decimal right)
    {
        var task = Task with
        {
            Readings = [Measured(100m, left), Measured(400m, right)],
            StationsOnly = true,
            KeepClear = false,
        };

        Assert.Equal(
            BindingConstraint.Travel,
            Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Binding
        );
    }

    [Fact]
    public void Solve_BoundsForSomeReadingsOnly_SaysHowManyStandThere()
    {
        var refusal = Assert.Throws<ArgumentException>(() =>
            ClickSolver.Solve(Task with { Bounds = [Interval(0m, 0m, 0.02m)] })
        );

        Assert.Contains("1 bounds stand beside 2 readings", refusal.Message, StringComparison.Ordinal);
    }

    private static ClickSolution.Plan Plan(ClickTask task) =>
        Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));
}
