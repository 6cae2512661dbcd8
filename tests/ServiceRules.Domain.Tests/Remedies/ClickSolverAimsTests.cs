using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>Which of several settings inside the zone is taken, one aim after the other; and which one misses by least.</summary>
public sealed class ClickSolverAimsTests
{
    /// <summary>
    /// Adjusters at 200 and 300 of 500, in steps of 0.01: opening the left one lifts the left end by three steps and lowers
    /// the right one by two, closing the right one lifts by two and lowers by three. From 0.03 and 0.11 both land in
    /// 0.05 to 0.10: at 0.06 and 0.09, or at 0.05 and 0.08, which is nearer to 0.06.
    /// </summary>
    private static ClickTask Inboard(Approach approach) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(200m, 300m, 0.01m, approach),
            Readings = [Measured(0m, 0.03m), Measured(500m, 0.11m)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.05m), Mm(0.10m)),
            Target = Mm(0.06m),
        };

    /// <summary>One place half way between the adjusters, so many steps of 0.01 above the middle of its zone.</summary>
    private static ClickTask Middle(decimal above) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.01m),
            Readings = [Measured(250m, 0.05m + (above * 0.01m))],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.049m), Mm(0.051m)),
            Target = Mm(0.05m),
            StationsOnly = true,
        };

    private static (int Left, int Right) Steps(ClickTask task)
    {
        var plan = Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));
        return (plan.LeftSteps, plan.RightSteps);
    }

    [Fact]
    public void Solve_EquallyManySteps_TakesTheNearestToTheTarget() =>
        Assert.Equal((0, -1), Steps(Inboard(Approach.Either)));

    [Fact]
    public void Solve_GoingTooFarAndBack_CountsBeforeTheTarget()
    {
        Assert.Equal((1, 0), Steps(Inboard(Approach.Opening)));
        Assert.Equal((0, -1), Steps(Inboard(Approach.Closing)));
    }

    [Fact]
    public void Solve_EquallyNear_TakesTheLeastDifferenceOfTheSides()
    {
        // Two half steps of the place: -2 and 0, -1 and -1, 0 and -2 all land it on its target.
        Assert.Equal((-1, -1), Steps(Middle(1m)));
        Assert.Equal((1, 1), Steps(Middle(-1m)));
    }

    [Fact]
    public void Solve_EquallyApart_TakesFewerStepsOnTheRight()
    {
        Assert.Equal((-1, 0), Steps(Middle(0.5m)));
        Assert.Equal((2, 1), Steps(Middle(-1.5m)));
    }

    [Theory]
    // Against the approach it goes two too far and comes back two.
    [InlineData(Approach.Opening, 1, "---++")]
    [InlineData(Approach.Closing, 1, "-")]
    [InlineData(Approach.Closing, -1, "+++--")]
    [InlineData(Approach.Opening, -1, "+")]
    public void Solve_TakeUpOfTwo_IsTurnedAgainstTheApproachOnly(
        Approach approach,
        int above,
        string expected
    )
    {
        var task = Middle(above * 0.5m) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.01m, approach) with { TakeUp = 2 },
        };

        var plan = Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));

        Assert.Equal(expected, string.Concat(plan.Sequence.Select(step => step.Opens ? '+' : '-')));
    }

    /// <summary>The same where only the right side moves the place, which stands at its adjuster.</summary>
    [Theory]
    [InlineData(Approach.Opening, 1, "---++")]
    [InlineData(Approach.Closing, -1, "+++--")]
    public void Solve_TakeUpOfTwoOnTheRight_IsTurnedToo(Approach approach, int above, string expected)
    {
        var task = Middle(above) with
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.01m, approach) with { TakeUp = 2 },
            Readings = [Measured(500m, 0.05m + (above * 0.01m))],
        };

        var plan = Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));

        Assert.Equal((0, -above), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal(expected, string.Concat(plan.Sequence.Select(step => step.Opens ? '+' : '-')));
    }

    /// <summary>
    /// Left at 0.2, five steps of 0.0127 away at most: it stays 0.0984 above 0.0381. The right end, inside as it is, would
    /// miss by less than that anywhere within its travel, and is left alone.
    /// </summary>
    [Fact]
    public void Nearest_WhereOneSideDecides_LeavesTheOtherAlone()
    {
        var task = new ClickTask
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.0127m) with { Travel = 5 },
            Readings = [Measured(0m, 0.2m), Measured(500m, 0.03m)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)),
            Target = Mm(0.03175m),
        };

        var nearest = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Nearest!;

        Assert.Equal((-5, 0, Mm(0.0984m)), (nearest.LeftSteps, nearest.RightSteps, nearest.Excess));
    }

    /// <summary>
    /// One step on either side takes 0.05 to 0.045 or 0.055: that misses 0.0474 to 0.0476, or 0.0524 to 0.0526, by 0.0024,
    /// as 0.05 does.
    /// </summary>
    [Theory]
    [InlineData(0.0474, 0.0476)]
    [InlineData(0.0524, 0.0526)]
    public void Nearest_AmongEquals_IsOfTheFewestSteps(decimal lower, decimal upper)
    {
        var task = Middle(0m) with { Zone = ToleranceZone.Between(Mm(lower), Mm(upper)) };

        var nearest = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Nearest!;

        Assert.Equal((0, 0, Mm(0.0024m)), (nearest.LeftSteps, nearest.RightSteps, nearest.Excess));
    }

    /// <summary>Only contact bars it: the nearest is three half steps of 0.01 take -0.01 to 0.005, clear, shared out as evenly as they can be.</summary>
    [Fact]
    public void Nearest_WhereContactAloneIsInTheWay_OpensUntilNothingTouches()
    {
        var task = Middle(0m) with
        {
            Readings = [Measured(250m, -0.01m)],
            Zone = ToleranceZone.Between(Mm(-0.02m), Mm(0m)),
            Target = Mm(-0.02m),
            KeepClear = true,
        };

        var infeasible = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

        Assert.Equal(BindingConstraint.ContactAtTheEnd, infeasible.Binding);
        Assert.Equal(
            (2, 1, Mm(0.005m)),
            (infeasible.Nearest!.LeftSteps, infeasible.Nearest.RightSteps, infeasible.Nearest.Excess)
        );
    }
}
