using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Tests.Geometry;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class ClickSolverTests
{
    private const decimal Step = 0.0127m;

    /// <summary>
    /// Outside values: turf/formulas.json, F16: left 0, right -2, predicted 0.0284 and 0.0256 at the stations. The
    /// zone is the target plus and minus half a step, the floor that F17 states for each side.
    /// </summary>
    [Fact]
    public void Solve_CoupledAdjusters_AgreesWithTheWorkedExample()
    {
        var plan = Plan(
            new()
            {
                Adjusters = Pair(0m, 559m, 0.018m),
                Readings = [Measured(25m, 0.03m), Measured(534m, 0.06m)],
                Width = Mm(559m),
                Zone = ToleranceZone.Between(Mm(0.016m), Mm(0.034m)),
                Target = Mm(0.025m),
                KeepClear = true,
            }
        );

        Assert.Equal((0, -2), (plan.LeftSteps, plan.RightSteps));
        var stations = plan.Landings.Where(l => l.Place == LandingPlace.Station).ToList();
        Assert.Equal([0.0284m, 0.0256m], stations.Select(l => Math.Round(l.After.Value(), 4)));
        Assert.Equal([0.03m, 0.06m], stations.Select(l => l.Before.Value()));
    }

    [Fact]
    public void Solve_ParallelAndTooOpen_ClosesBothSidesAlternately()
    {
        // 0.0635 is five steps; the band 0.0254 to 0.0381 is reached by two or three closing steps each; two are fewer.
        var plan = Plan(Task(0.0635m, 0.0635m));

        Assert.Equal((-2, -2), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal("L- R- L- R-", Written(plan.Sequence));
        Assert.All(plan.Landings, l => Assert.Equal(0.0381m, l.After.Value()));
        Assert.Equal(Mm(0.00635m), plan.LargestDeviation);
    }

    [Fact]
    public void Solve_OneSideFurther_TurnsTheSideWithMoreStepsLeftFirst()
    {
        // Left end 0.0762 (six steps), right end 0.0508 (four): the fewest are three left and one right.
        var plan = Plan(Task(0.0762m, 0.0508m));

        Assert.Equal((-3, -1), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal("L- L- R- L-", Written(plan.Sequence));
    }

    [Fact]
    public void Solve_AlreadyInside_TurnsNothing()
    {
        var plan = Plan(Task(0.03m, 0.035m));

        Assert.Equal(0, plan.TotalSteps);
        Assert.All(plan.Landings, l => Assert.Equal(l.Before, l.After));
    }

    [Fact]
    public void Solve_ApproachOpening_GoesOneTooFarAndComesBack()
    {
        var plan = Plan(Task(0.0635m, 0.0635m) with { Adjusters = Pair(0m, 500m, Step, Approach.Opening) });

        Assert.Equal((-2, -2), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal(8, plan.TotalSteps);
        Assert.Equal(["L- L- L- L+", "R- R- R- R+"], BySide(plan));
    }

    [Fact]
    public void Solve_ApproachOpening_CanPreferAnotherSideToAvoidComingBack()
    {
        // Left too tight by one step, right at the upper edge: opening left alone keeps the order cheap.
        var plan = Plan(
            Task(0.0254m - Step, 0.0381m) with
            {
                Adjusters = Pair(0m, 500m, Step, Approach.Opening),
            }
        );

        Assert.Equal((1, 0), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal("L+", Written(plan.Sequence));
    }

    [Fact]
    public void Solve_OvershootWouldTouch_IsRefusedRatherThanTouched()
    {
        // From one step above the zone's floor of half a step, closing one and coming back would pass zero.
        var task = Task(0.016m, 0.016m) with
        {
            Adjusters = Pair(0m, 500m, Step, Approach.Opening),
            Zone = ToleranceZone.Between(Mm(0.001m), Mm(0.006m)),
            Target = Mm(0.004m),
        };

        var refused = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));
        var allowed = Plan(task with { KeepClear = false });

        Assert.Equal(BindingConstraint.ContactOnTheWay, refused.Binding);
        Assert.Equal((-1, -1), (allowed.LeftSteps, allowed.RightSteps));
    }

    [Fact]
    public void Solve_SwingingFarEnd_OpensFirstSoThatNothingTouches()
    {
        // Adjusters inboard of the ends: closing the right side swings the right end down by more than a step.
        // Left end needs opening, right end closing; the order that closes first would touch at the right end.
        var task = new ClickTask
        {
            Adjusters = Pair(200m, 300m, Step),
            Readings = [Measured(0m, 0.02m), Measured(500m, 0.07m)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.02m), Mm(0.06m)),
            Target = Mm(0.04m),
            KeepClear = true,
        };

        var plan = Plan(task);

        AssertNothingTouches(task, plan);
    }

    [Fact]
    public void Solve_FromMeasuredContact_LeavesItFirst()
    {
        // Left end 0.006 in contact, right end four steps open.
        var task = Task(-0.006m, 0.0762m);

        var plan = Plan(task);

        Assert.Equal((3, -3), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal("L+ R- L+ R- L+ R-", Written(plan.Sequence));
    }

    [Fact]
    public void Solve_FromMeasuredContact_LeavesItBeforeTheSideWithMoreSteps()
    {
        // Right end nine steps open: it has more to turn, but the left end is in contact and comes free by one step.
        var plan = Plan(Task(-0.006m, 0.1143m));

        Assert.Equal((3, -6), (plan.LeftSteps, plan.RightSteps));
        Assert.Equal("L+ R- R- R- R- L+ R- L+ R-", Written(plan.Sequence));
    }

    [Fact]
    public void Solve_BowWiderThanTheZone_BindsOnStraightness()
    {
        var task = Task(0.03m, 0.03m) with
        {
            Readings = [Measured(50m, 0.03m), Measured(250m, 0.06m), Measured(450m, 0.03m)],
        };

        var infeasible = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

        Assert.Equal(BindingConstraint.Straightness, infeasible.Binding);
        Assert.Contains("grind", infeasible.WouldHelp, StringComparison.Ordinal);
        // The bow is 0.03 and the zone 0.0127 wide: the middle stays at least half the rest out.
        Assert.True(infeasible.Nearest!.Excess >= Mm((0.03m - 0.0127m) / 2));
    }

    [Fact]
    public void Solve_ZoneBetweenTwoSteps_BindsOnTheStep()
    {
        var task = Task(0.05m, 0.05m) with
        {
            Zone = ToleranceZone.Between(Mm(0.0300m), Mm(0.0310m)),
            Target = Mm(0.0305m),
        };

        var infeasible = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

        Assert.Equal(BindingConstraint.StepSize, infeasible.Binding);
        // 0.05 - 0.0127 = 0.0373 is 0.0063 above; 0.05 - 0.0254 = 0.0246 is 0.0054 below.
        Assert.Equal(
            (-2, -2, Mm(0.0054m)),
            (infeasible.Nearest!.LeftSteps, infeasible.Nearest.RightSteps, infeasible.Nearest.Excess)
        );
    }

    [Fact]
    public void Solve_BeyondTheTravel_BindsOnTravel()
    {
        var task = Task(0.2m, 0.2m) with { Adjusters = Pair(0m, 500m, Step) with { Travel = 5 } };

        var infeasible = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

        Assert.Equal(BindingConstraint.Travel, infeasible.Binding);
        Assert.Equal((-5, -5), (infeasible.Nearest!.LeftSteps, infeasible.Nearest.RightSteps));
    }

    /// <summary>
    /// 60 mm is 4724 steps of 0.0127, more than anyone would turn; and 30 mm at one side alone, 2362 steps, is no bow either.
    /// </summary>
    [Theory]
    [InlineData(60, 60)]
    [InlineData(0.03, 30)]
    [InlineData(1000000, 0.03)]
    public void Solve_FarBeyondAnyTravel_StillBindsOnTravel(decimal left, decimal right) =>
        Assert.Equal(
            BindingConstraint.Travel,
            Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(Task(left, right))).Binding
        );

    [Fact]
    public void Solve_ZoneThatAsksForContact_BindsOnContact()
    {
        var task = Task(0.03m, 0.03m) with
        {
            Zone = ToleranceZone.Between(Mm(-0.02m), Mm(0m)),
            Target = Mm(0m),
        };

        var infeasible = Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task));

        Assert.Equal(BindingConstraint.ContactAtTheEnd, infeasible.Binding);
        Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task with { KeepClear = false }));
    }

    [Fact]
    public void Solve_OneStation_CannotSpeakForTheEnds()
    {
        var task = Task(0m, 0m) with { Readings = [Measured(250m, 0.06m)] };

        Assert.Equal(
            BindingConstraint.EndsUnknown,
            Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Binding
        );
        Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task with { StationsOnly = true }));
    }

    [Fact]
    public void Solve_StationsOnly_LetsTheEndsBeOutside()
    {
        // Read 100 in from each end of 500: the ends are out by a sixth of the width each way.
        var task = Task(0m, 0m) with
        {
            Readings = [Measured(100m, 0.026m), Measured(400m, 0.0375m)],
        };

        Assert.NotEqual(0, Plan(task).TotalSteps);
        Assert.Equal(0, Plan(task with { StationsOnly = true }).TotalSteps);
    }

    [Fact]
    public void Solve_Intervals_LandsTheWholeIntervals()
    {
        // Each within a step: [0.0508, 0.0635]. Two closing steps give [0.0254, 0.0381], exactly the zone.
        var plan = Plan(
            Task(0m, 0m) with
            {
                Readings = [Interval(0m, 0.0508m, 0.0635m), Interval(500m, 0.0508m, 0.0635m)],
            }
        );

        Assert.Equal((-2, -2), (plan.LeftSteps, plan.RightSteps));
        Assert.All(
            plan.Landings,
            l => Assert.Equal(LengthInterval.Between(Mm(0.0254m), Mm(0.0381m)), l.After)
        );
    }

    /// <summary>
    /// Left end about one step, right end about six, each by a step either way. By the middles nothing can touch, so that the
    /// side with more to turn would close first; but the left end may be at nothing, where contact is left first.
    /// </summary>
    [Fact]
    public void Solve_MiddlesOfWideIntervals_CountContactOnTheLeast()
    {
        var middles = Task(Step, 0.0762m) with { Readings = [Measured(40m, Step), Measured(460m, 0.0762m)] };
        var task = middles with { Bounds = [Interval(40m, 0m, 0.0254m), Interval(460m, 0.0635m, 0.0889m)] };

        Assert.Equal(Side.Right, Plan(middles).Sequence[0].Side);
        Assert.Equal(new SingleStep(Side.Left, true), Plan(task).Sequence[0]);
    }

    /// <summary>Nothing may touch either way: what opens comes first all the same, since the gaps are estimates.</summary>
    [Fact]
    public void Solve_MiddlesOfWideIntervals_OpenBeforeTheyClose()
    {
        var middles = Task(Step, 0.0762m);
        var task = middles with { Bounds = [Interval(0m, 0.01m, 0.0154m), Interval(500m, 0.0635m, 0.0889m)] };

        Assert.Equal("R- R- L+ R-", Written(Plan(middles).Sequence));
        Assert.Equal("L+ R- R- R-", Written(Plan(task).Sequence));
    }

    [Fact]
    public void Solve_BoundsForSomeReadingsOnly_AreRefused() =>
        Assert.Throws<ArgumentException>(() =>
            ClickSolver.Solve(Task(Step, 0.05m) with { Bounds = [Interval(0m, 0m, 0.02m)] })
        );

    [Theory]
    [InlineData(true, typeof(ClickSolution.Plan))]
    [InlineData(false, typeof(ClickSolution.Infeasible))]
    public void Solve_GapThatReachesDownToZero_TouchesOnlyIfZeroIsPossible(bool zeroExcluded, Type expected)
    {
        // Above zero and at most a step: nothing to turn when zero is excluded, contact when it is possible.
        Assert.True(
            LengthInterval.TryCreate(
                new IntervalEnd(Mm(0m), !zeroExcluded),
                IntervalEnd.Closed(Mm(Step)),
                out var gap
            )
        );
        var task = Task(0m, 0m) with
        {
            Readings = [new(Mm(0m), gap), new(Mm(500m), gap)],
            Zone = ToleranceZone.Between(Mm(0m), Mm(Step)),
            Target = Mm(0.006m),
        };

        Assert.IsType(expected, ClickSolver.Solve(task));
    }

    [Fact]
    public void Solve_IntervalWiderThanTheZone_AsksForABetterReading()
    {
        var task = Task(0m, 0m) with
        {
            Readings = [Interval(0m, 0.05m, 0.07m), Interval(500m, 0.05m, 0.07m)],
        };

        Assert.Equal(
            BindingConstraint.KnowledgeTooWide,
            Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Binding
        );
    }

    [Fact]
    public void InsideBothPrints_AimsAtTheOverlapOrElseTheGoverningPrint()
    {
        var governing = ToleranceZone.Between(Mm(0.0254m), Mm(0.0508m));
        var alternate = ToleranceZone.Between(Mm(0.025m), Mm(0.05m));

        Assert.Equal(
            ToleranceZone.Between(Mm(0.0254m), Mm(0.05m)),
            ToleranceZone.InsideBothPrints(governing, alternate)
        );
        Assert.Equal(
            governing,
            ToleranceZone.InsideBothPrints(governing, ToleranceZone.Between(Mm(0.06m), Mm(0.07m)))
        );
        Assert.Equal(governing, ToleranceZone.InsideBothPrints(governing, null));
    }

    internal static AdjusterPair Pair(
        decimal left,
        decimal right,
        decimal step,
        Approach approach = Approach.Either
    ) =>
        AdjusterPair.TryCreate(Mm(left), Mm(right), Mm(step), approach, out var pair)
            ? pair
            : throw new InvalidOperationException("the test's adjusters are usable");

    /// <summary>No state on the way touches at any station or end: recomputed by plain geometry.</summary>
    internal static void AssertNothingTouches(ClickTask task, ClickSolution.Plan plan)
    {
        var (left, right) = (0, 0);
        foreach (var step in plan.Sequence)
        {
            left += step.Side == Side.Left ? (step.Opens ? 1 : -1) : 0;
            right += step.Side == Side.Right ? (step.Opens ? 1 : -1) : 0;
            Assert.All(
                plan.Landings,
                l =>
                    Assert.True(
                        l.Before.Value() + task.Adjusters.Movement(left, right, l.Station).Millimetres > 0
                    )
            );
        }

        Assert.Equal((plan.LeftSteps, plan.RightSteps), (left, right));
    }

    private static ClickTask Task(decimal leftEnd, decimal rightEnd) =>
        new()
        {
            Adjusters = Pair(0m, 500m, Step),
            Readings = [Measured(0m, leftEnd), Measured(500m, rightEnd)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)),
            Target = Mm(0.03175m),
            KeepClear = true,
        };

    private static ClickSolution.Plan Plan(ClickTask task) =>
        Assert.IsType<ClickSolution.Plan>(ClickSolver.Solve(task));

    private static string Written(ImmutableArray<SingleStep> sequence) =>
        string.Join(' ', sequence.Select(s => (s.Side == Side.Left ? "L" : "R") + (s.Opens ? "+" : "-")));

    private static string[] BySide(ClickSolution.Plan plan) =>
        [
            Written([.. plan.Sequence.Where(s => s.Side == Side.Left)]),
            Written([.. plan.Sequence.Where(s => s.Side == Side.Right)]),
        ];
}
