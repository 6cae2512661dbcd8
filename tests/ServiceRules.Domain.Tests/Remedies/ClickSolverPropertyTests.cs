using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Tests.Geometry;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>The solver against brute force: every setting within the travel, and every order of turning.</summary>
[Properties(MaxTest = PropertyCases.Each)]
public sealed class ClickSolverPropertyTests
{
    private const decimal Width = 500m;

    [Property]
    public void Solve_AnyTask_IsAsGoodAsBruteForce(short a, short b, short c, byte form, byte more)
    {
        var task = TaskOf(a, b, c, form, more);
        var best = BruteForce.Best(task);
        var solution = ClickSolver.Solve(task);

        if (best is null)
        {
            Assert.IsType<ClickSolution.Infeasible>(solution);
            return;
        }

        var plan = Assert.IsType<ClickSolution.Plan>(solution);
        Assert.Equal(best.Value.Total, plan.TotalSteps);
        Near(best.Value.Deviation, plan.LargestDeviation.Millimetres);
    }

    [Property]
    public void Solve_AnyPlan_KeepsItsRulesAtEveryStep(short a, short b, short c, byte form, byte more)
    {
        var task = TaskOf(a, b, c, form, more);
        if (ClickSolver.Solve(task) is not ClickSolution.Plan plan)
        {
            return;
        }

        Assert.All(plan.Landings, l => Assert.True(IsInside(task.Zone, l.After)));
        foreach (var side in new[] { Side.Left, Side.Right })
        {
            var turned = plan.Sequence.Where(s => s.Side == side).ToList();
            if (turned.Count > 0 && task.Adjusters.Approach != Approach.Either)
            {
                Assert.Equal(task.Adjusters.Approach == Approach.Opening, turned[^1].Opens);
            }
        }

        if (task.KeepClear)
        {
            // No step touches from a clear start, contact never deepens, and it is left in as few states as any order has.
            var contacts = BruteForce.ContactsOf(task, plan.Sequence);
            Assert.NotNull(contacts);
            Assert.Equal(BruteForce.FewestContacts(task, plan.LeftSteps, plan.RightSteps), contacts);
            Assert.All(
                plan.Landings,
                l => Assert.True(l.After.AsInterval().Lower!.Value.Value.Millimetres > 0)
            );
        }
    }

    /// <summary>
    /// Middles solved for within intervals too wide for the zone: every gap that the intervals leave possible stays clear,
    /// or is left in as few states as any order has.
    /// </summary>
    [Property]
    public void Solve_EstimatesWithinBounds_CountsContactOnTheLeastPossible(
        short a,
        short b,
        short c,
        byte form,
        byte more
    )
    {
        var known = TaskOf(a, b, c, form, more) with { KeepClear = true };
        var task = known with
        {
            Bounds =
            [
                .. known.Readings.Select(reading =>
                    Interval(
                        reading.Station.Millimetres,
                        Middle(reading) - 0.004m - ((more & 3) * 0.006m),
                        Middle(reading) + 0.015m
                    )
                ),
            ],
            Readings =
            [
                .. known.Readings.Select(reading => Measured(reading.Station.Millimetres, Middle(reading))),
            ],
        };
        var best = BruteForce.Best(task);
        var solution = ClickSolver.Solve(task);

        Assert.Equal(best is not null, solution is ClickSolution.Plan);
        if (solution is ClickSolution.Plan plan)
        {
            Assert.Equal(best!.Value.Total, plan.TotalSteps);
            var contacts = BruteForce.ContactsOf(task, plan.Sequence);
            Assert.NotNull(contacts);
            Assert.Equal(BruteForce.FewestContacts(task, plan.LeftSteps, plan.RightSteps), contacts);
        }
    }

    private static decimal Middle(StationReading reading) =>
        reading.Knowledge is LengthInterval interval
            ? (interval.Lower!.Value.Value + interval.Upper!.Value.Value).Millimetres / 2
            : reading.Knowledge.Value();

    [Property]
    public void Solve_PlanCarriedOut_ReadsAsPredicted(short a, short b, short c, byte form, byte more)
    {
        var task = TaskOf(a, b, c, form, more);
        if (ClickSolver.Solve(task) is not ClickSolution.Plan plan)
        {
            return;
        }

        ImmutableArray<StationReading> carriedOut =
        [
            .. plan
                .Landings.Where(l => l.Place == LandingPlace.Station)
                .Select(l => new StationReading(l.Station, l.After)),
        ];
        var fit = WidthFit.Through(carriedOut, task.Width)!;

        Same(plan.Landings[0].After, fit.LeftEnd);
        Same(plan.Landings[^1].After, fit.RightEnd);
        // What has been carried out needs nothing more.
        var again = Assert.IsType<ClickSolution.Plan>(
            ClickSolver.Solve(task with { Readings = carriedOut, Zone = Widened(task.Zone) })
        );
        Assert.Equal(0, again.TotalSteps);
    }

    [Property]
    public void Solve_MirroredTask_IsAsGoodTheOtherWayRound(short a, short b, short c, byte form, byte more)
    {
        var task = TaskOf(a, b, c, form, more);
        var mirrored = task with
        {
            Readings = task.Readings.Mirrored(Width),
            Adjusters = ClickSolverTests.Pair(
                Width - task.Adjusters.RightAt.Millimetres,
                Width - task.Adjusters.LeftAt.Millimetres,
                task.Adjusters.Step.Millimetres,
                task.Adjusters.Approach
            ) with
            {
                Travel = task.Adjusters.Travel,
                TakeUp = task.Adjusters.TakeUp,
            },
        };

        var plain = ClickSolver.Solve(task);
        var other = ClickSolver.Solve(mirrored);

        Assert.Equal(plain.GetType(), other.GetType());
        Assert.Equal((plain as ClickSolution.Plan)?.TotalSteps, (other as ClickSolution.Plan)?.TotalSteps);
        Assert.Equal(
            (plain as ClickSolution.Plan)?.LargestDeviation,
            (other as ClickSolution.Plan)?.LargestDeviation
        );
        Assert.Equal(
            (plain as ClickSolution.Infeasible)?.Binding,
            (other as ClickSolution.Infeasible)?.Binding
        );
    }

    [Property]
    public void Nearest_OfAnInfeasibleTask_MissesByAsLittleAsAnySetting(
        short a,
        short b,
        short c,
        byte form,
        byte more
    )
    {
        var task = TaskOf(a, b, c, form, more) with { Zone = ToleranceZone.Between(Mm(0.030m), Mm(0.032m)) };
        if (ClickSolver.Solve(task) is not ClickSolution.Infeasible { Nearest: { } nearest } infeasible)
        {
            return;
        }

        AsNearAsAny(task, infeasible, nearest);
        if (!nearest.KeepsIn)
        {
            Assert.Equal(
                BruteForce.FewestStepsAtLeastExcess(task),
                Math.Abs(nearest.LeftSteps) + Math.Abs(nearest.RightSteps)
            );
        }

        var worst = nearest.Worst.After.AsInterval();
        var misses = nearest.IsAbove
            ? worst.Upper!.Value.Value - task.Zone.Upper!.Value
            : task.Zone.Lower!.Value - worst.Lower!.Value.Value;
        Near(nearest.Excess.Millimetres, Math.Max(0, misses.Millimetres));
    }

    /// <summary>
    /// Where only contact stands in the way, of estimates and of what is known alike: nearest by the estimates, sure not to touch by
    /// all that is possible, in an order that never touches either.
    /// </summary>
    [Property]
    public void Nearest_OfEstimatesWithinBounds_MissesByAsLittleAsAnySettingThatIsSureNotToTouch(
        short a,
        short b,
        short c,
        byte form,
        byte more
    )
    {
        var known = TaskOf(a, b, c, form, more) with { KeepClear = true };
        var task = known with
        {
            Zone = ToleranceZone.Between(Mm(0.020m), Mm(0.034m)),
            Bounds =
            [
                .. known.Readings.Select(reading =>
                    Interval(
                        reading.Station.Millimetres,
                        Middle(reading) - 0.008m - ((more & 3) * 0.006m),
                        Middle(reading) + 0.015m
                    )
                ),
            ],
            Readings =
            [
                .. known.Readings.Select(reading => Measured(reading.Station.Millimetres, Middle(reading))),
            ],
        };
        if (ClickSolver.Solve(task) is ClickSolution.Infeasible { Nearest: { } nearest } infeasible)
        {
            AsNearAsAny(task, infeasible, nearest);
        }
    }

    private static void AsNearAsAny(
        ClickTask task,
        ClickSolution.Infeasible infeasible,
        NearestSetting nearest
    )
    {
        var best = infeasible.Binding
            is BindingConstraint.ContactAtTheEnd
                or BindingConstraint.ContactOnTheWay
            ? BruteForce.LeastExcessKeepingIn(task)
            : BruteForce.LeastExcess(task);
        Near(best!.Value, nearest.Excess.Millimetres);
        if (task.KeepClear)
        {
            Assert.NotNull(BruteForce.ContactsOf(task, nearest.Sequence));
            Assert.All(nearest.Landings, l => Assert.True(l.LeastAfter!.Value.Millimetres > -0.00000001m));
        }

        Assert.Equal(
            (nearest.LeftSteps, nearest.RightSteps),
            (
                nearest.Sequence.Where(s => s.Side == Side.Left).Sum(s => s.Opens ? 1 : -1),
                nearest.Sequence.Where(s => s.Side == Side.Right).Sum(s => s.Opens ? 1 : -1)
            )
        );
    }

    /// <summary>
    /// A step that may obtain anything between a third and twice of itself: whatever every single step then obtains, nothing
    /// touches on the way or in the end.
    /// </summary>
    [Property]
    public void Solve_StepKnownWithin_StaysClearForEveryCredibleStep(
        short a,
        short b,
        short c,
        byte form,
        byte more
    )
    {
        var task = TaskOf(a, b, c, form, more) with { KeepClear = true };
        var (least, most) = (task.Adjusters.Step * 0.3m, task.Adjusters.Step * 2m);
        var unsure = task with { Adjusters = task.Adjusters with { LeastStep = least, MostStep = most } };
        if (BruteForce.ContactsOf(task, []) > 0)
        {
            return;
        }

        var moves = ClickSolver.Solve(unsure) switch
        {
            ClickSolution.Plan plan => [.. plan.Sequence.Select(s => (s.Side, By: s.Opens ? 1 : -1))],
            _ => new List<(Side Side, int By)>(),
        };

        foreach (
            var (opening, closing) in new[] { (least, most), (most, least), (least, least), (most, most) }
        )
        {
            foreach (var (otherOpening, otherClosing) in new[] { (least, most), (most, least) })
            {
                var (left, right) = (0m, 0m);
                foreach (var (side, by) in moves)
                {
                    left += side == Side.Left ? by * (by > 0 ? opening : closing).Millimetres : 0;
                    right += side == Side.Right ? by * (by > 0 ? otherOpening : otherClosing).Millimetres : 0;
                    Assert.False(
                        BruteForce.TouchesAt(task, left, right),
                        $"{task.Readings.Length} at {left}, {right}"
                    );
                }
            }
        }
    }

    private static bool IsInside(ToleranceZone zone, Knowledge known)
    {
        var interval = known.AsInterval();
        return zone.Contains(interval.Lower!.Value.Value) && zone.Contains(interval.Upper!.Value.Value);
    }

    private static void Same(Knowledge predicted, Knowledge read)
    {
        Near(
            predicted.AsInterval().Lower!.Value.Value.Millimetres,
            read.AsInterval().Lower!.Value.Value.Millimetres
        );
        Near(
            predicted.AsInterval().Upper!.Value.Value.Millimetres,
            read.AsInterval().Upper!.Value.Value.Millimetres
        );
    }

    private static ToleranceZone Widened(ToleranceZone zone) =>
        ToleranceZone.Between(zone.Lower!.Value - Mm(0.00000000001m), zone.Upper!.Value + Mm(0.00000000001m));

    private static ClickTask TaskOf(short a, short b, short c, byte form, byte more)
    {
        decimal[] gaps = [a % 90, b % 90, c % 90];
        var (adjusters, approach) = (
            (form % 3) switch
            {
                0 => (0m, Width),
                1 => (-40m, 530m),
                _ => (60m, 455m),
            },
            (Approach)((form / 3) % 3)
        );
        var half = (more & 3) * 0.002m;
        ImmutableArray<StationReading> readings =
            (form & 64) == 0
                ? [At(40m, gaps[0] * 0.001m, half), At(455m, gaps[1] * 0.001m, half)]
                :
                [
                    At(40m, gaps[0] * 0.001m, half),
                    At(250m, (gaps[0] + gaps[1] + (gaps[2] / 10)) * 0.0005m, half),
                    At(455m, gaps[1] * 0.001m, half),
                ];
        return new()
        {
            Adjusters = ClickSolverTests.Pair(adjusters.Item1, adjusters.Item2, 0.0127m, approach) with
            {
                Travel = 2 + ((more >> 2) & 3),
                TakeUp = 1 + ((more >> 4) & 1),
            },
            Readings = readings,
            Width = Mm(Width),
            Zone = ToleranceZone.Between(Mm(0.020m), Mm(0.045m)),
            Target = Mm(0.0325m),
            KeepClear = (form & 128) == 0,
        };
    }

    private static StationReading At(decimal station, decimal gap, decimal half) =>
        half == 0 ? Measured(station, gap) : Interval(station, gap - half, gap + half);
}
