using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class MatchSolverTests
{
    /// <summary>A level unit of 500 mm with adjusters at its ends; target 4.00 mm.</summary>
    internal static MatchUnit Unit(decimal left, decimal? right = null) =>
        new()
        {
            Left = Mm(left),
            Right = Mm(right ?? left),
            RightAt = Mm(500m),
            Width = Mm(500m),
            Target = Mm(4m),
            Part = Mm(0.01m),
        };

    private static MatchPlan? Solve(decimal together, params MatchUnit[] units) =>
        MatchSolver.Solve(new() { Units = [.. units], Together = Mm(together) });

    private static string Told(MatchPlan? plan) =>
        string.Join(
            "; ",
            plan!.Settings.Select(setting =>
                setting.IsMoved
                    ? $"{setting.Left.Millimetres:0.###} {setting.Right.Millimetres:0.###}"
                    : "stays"
            )
        );

    [Fact]
    public void Solve_OneApart_MovesItAloneToTheTarget() =>
        Assert.Equal("stays; stays; -0.2 -0.2", Told(Solve(0.1m, Unit(4.00m), Unit(4.02m), Unit(4.20m))));

    [Fact]
    public void Solve_EveryOneTogether_MovesNothing()
    {
        var plan = Solve(0.1m, Unit(4.00m), Unit(4.10m));

        Assert.Equal("stays; stays", Told(plan));
        Assert.Equal((0, 0), (plan!.Moved, plan.Steps));
    }

    [Fact]
    public void Solve_JustBeyondTogether_MovesOne() =>
        Assert.Equal(1, Solve(0.1m, Unit(4.00m), Unit(4.1000001m))!.Moved);

    [Fact]
    public void Solve_FewestUnits_BeforeNearestToTheTarget()
    {
        // Two stand high together: the one on target moves up to them, as far as it must.
        var plan = Solve(0.1m, Unit(4.00m), Unit(4.30m), Unit(4.30m));

        Assert.Equal("0.2 0.2; stays; stays", Told(plan));
    }

    [Fact]
    public void Solve_UnitsThatMustMove_GoWhereTheOthersAllow() =>
        Assert.Equal(
            "-0.3 -0.2; stays",
            Told(Solve(0.1m, Unit(4.30m, 4.20m) with { MustMove = true }, Unit(4.05m)))
        );

    [Fact]
    public void Solve_AStepBetweenNeighbours_MovesTheOneThatClosesIt()
    {
        // The middles are alike; the ends that meet differ by 0.3. The left one is set level on the target.
        var plan = MatchSolver.Solve(
            new()
            {
                Units = [Unit(3.85m, 4.15m), Unit(3.85m, 4.15m), Unit(3.85m, 3.85m)],
                Together = Mm(0.2m),
                Steps = [Mm(0.2m), null],
            }
        );

        Assert.Equal("0.15 -0.15; stays; stays", Told(plan));
    }

    [Fact]
    public void Solve_NeighboursWithoutAStepLimit_AreLeft() =>
        Assert.Equal(
            "stays; stays",
            Told(MatchSolver.Solve(new() { Units = [Unit(3.0m), Unit(5.0m)], Steps = [null] }))
        );

    [Fact]
    public void Solve_UnitsThatAreNoSet_NeedNotLieTogether()
    {
        var alone = Unit(3.0m) with { IsInSet = false };

        Assert.Equal("stays; stays", Told(Solve(0.1m, alone, Unit(4.0m))));
        Assert.Equal("stays; stays", Told(Solve(0.1m, alone, alone with { Left = Mm(5m), Right = Mm(5m) })));
    }

    [Fact]
    public void Solve_PartsOfATurn_GoToTheNearestPart()
    {
        // 0.26 in parts of 0.05: five parts down leave 4.01, nearer than six; right four parts of 0.21 leave 4.01.
        var plan = Solve(
            0.1m,
            Unit(4.26m, 4.21m) with
            {
                MustMove = true,
                Moves = MoveKind.ByParts,
                Part = Mm(0.05m),
            }
        );

        Assert.Equal("-0.25 -0.2", Told(plan));
        Assert.Equal(0, plan!.Steps);
    }

    [Fact]
    public void Solve_Steps_AreSavedBeforeTheTargetIsMet()
    {
        // In steps of 0.05 four steps down a side reach the zone, and six would reach the target.
        var unit = Unit(4.30m) with
        {
            MustMove = true,
            Moves = MoveKind.BySteps,
            Part = Mm(0.05m),
            Zone = ToleranceZone.Between(Mm(3.9m), Mm(4.1m)),
        };
        var plan = Solve(0.1m, unit);

        Assert.Equal("-0.2 -0.2", Told(plan));
        Assert.Equal(8, plan!.Steps);
    }

    [Fact]
    public void Solve_AdjustersInsideTheEnds_LandTheEndsByTheLever()
    {
        // Adjusters at 100 and 400 of 500: 4.10 and 4.16 there are 4.08 and 4.18 at the ends.
        var plan = Solve(
            0.1m,
            Unit(4.10m, 4.16m) with
            {
                LeftAt = Mm(100m),
                RightAt = Mm(400m),
                MustMove = true,
            },
            Unit(4.0m)
        );

        Assert.Equal("-0.1 -0.16; stays", Told(plan));
        Assert.Equal(
            (Mm(4m), Mm(4m), Mm(4m)),
            (plan!.Settings[0].LeftEnd, plan.Settings[0].Middle, plan.Settings[0].RightEnd)
        );
        var stays = MatchSolver
            .Solve(new() { Units = [Unit(4.10m, 4.16m) with { LeftAt = Mm(100m), RightAt = Mm(400m) }] })!
            .Settings[0];
        Assert.Equal((Mm(4.08m), Mm(4.13m), Mm(4.18m)), (stays.LeftEnd, stays.Middle, stays.RightEnd));
    }

    [Fact]
    public void Solve_ZoneAndTilt_BindWhatIsMoved()
    {
        var unit = Unit(4.30m) with { MustMove = true, Zone = ToleranceZone.Between(Mm(4.05m), Mm(4.1m)) };

        Assert.Equal("-0.25 -0.25", Told(Solve(0.1m, unit)));
        Assert.Null(Solve(0.1m, unit with { Zone = ToleranceZone.Between(Mm(5m), Mm(5.1m)) }));
        // Parts of 0.05 from 4.30 and 4.32 never come closer than 0.02 to level.
        var screw = Unit(4.30m, 4.32m) with
        {
            MustMove = true,
            Moves = MoveKind.ByParts,
            Part = Mm(0.05m),
        };
        Assert.Equal("-0.3 -0.3", Told(Solve(0.1m, screw with { MostTilt = Mm(0.02m) })));
        Assert.Null(Solve(0.1m, screw with { MostTilt = Mm(0.019m) }));
    }

    [Fact]
    public void Solve_EquallyGood_LeavesTheLeastSpread()
    {
        // The one in the middle must move and both ends of the set stay 0.10 apart from the target; anywhere between is as
        // near to its own target 4.10 only at 4.10.
        var plan = Solve(0.2m, Unit(4.0m), Unit(4.5m) with { MustMove = true }, Unit(4.1m));

        Assert.Equal("stays; -0.5 -0.5; stays", Told(plan));
    }

    /// <summary>In parts of 0.1 from 4.15: 3.95 and 4.05 are equally near to 4.00; 4.05 lies nearer to the other's 4.20.</summary>
    [Fact]
    public void Solve_EquallyNearWithAnother_TakesTheOneThatLiesCloser()
    {
        var screw = Unit(4.15m) with { MustMove = true, Moves = MoveKind.ByParts, Part = Mm(0.1m) };

        Assert.Equal("stays; -0.1 -0.1", Told(Solve(0.3m, Unit(4.20m), screw)));
        Assert.Equal("-0.2 -0.2", Told(Solve(0.3m, screw)));
    }

    /// <summary>Either may move by 0.3 to within 0.1 of the other, as near to 4.00: the lower pair is taken.</summary>
    [Fact]
    public void Solve_EquallyGoodEitherWay_StaysLow()
    {
        Assert.Equal("stays; -0.3 -0.3", Told(Solve(0.1m, Unit(3.8m), Unit(4.2m))));
        Assert.Equal("-0.3 -0.3; stays", Told(Solve(0.1m, Unit(4.2m), Unit(3.8m))));
    }

    [Fact]
    public void Solve_ZonesFurtherApartThanTogether_IsNoPlan()
    {
        var (low, high) = (
            Unit(3m) with
            {
                MustMove = true,
                Zone = ToleranceZone.Between(Mm(3.9m), Mm(3.95m)),
            },
            Unit(5m) with
            {
                MustMove = true,
                Zone = ToleranceZone.Between(Mm(4.2m), Mm(4.25m)),
            }
        );

        Assert.Null(Solve(0.249m, low, high));
        Assert.Equal(2, Solve(0.25m, low, high)!.Moved);
    }

    [Fact]
    public void Solve_StepsOfSeveralUnits_AreAdded()
    {
        // Four steps of 0.05 a side, 4.30 to 4.10; two a side, 4.20 to 4.10.
        var zone = ToleranceZone.Between(Mm(3.9m), Mm(4.1m));
        MatchUnit BySteps(decimal height) =>
            Unit(height) with
            {
                MustMove = true,
                Moves = MoveKind.BySteps,
                Part = Mm(0.05m),
                Zone = zone,
            };

        Assert.Equal(12, Solve(0.1m, BySteps(4.30m), BySteps(4.20m))!.Steps);
    }

    [Fact]
    public void Solve_NothingToMatch_IsNoPlan()
    {
        Assert.Null(MatchSolver.Solve(new() { Units = [] }));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            MatchSolver.Solve(new() { Units = [.. Enumerable.Repeat(Unit(4m), MatchTask.MostUnits + 1)] })
        );
    }

    /// <summary>Outside values: turf/formulas.json, F20: 0.120, 0.125, 0.130 in, each on its own in, the machine out.</summary>
    [Fact]
    public void Solve_TheWorkedExample_MovesOneUnit()
    {
        var given = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F20")
            .GetProperty("worked_example")
            .GetProperty("inputs");
        var heights = given
            .GetProperty("heights_in")
            .EnumerateArray()
            .Select(h => Length.FromInches(h.GetDecimal()));
        var units = heights
            .Select(height =>
                Unit(0m) with
                {
                    Left = height,
                    Right = height,
                    Target = Length.FromInches(0.125m),
                }
            )
            .ToImmutableArray();
        var visible = Length.FromInches(given.GetProperty("visible_step_in").GetDecimal());

        Assert.Equal(0, MatchSolver.Solve(new() { Units = units, Together = visible })!.Moved);
        Assert.Equal(1, MatchSolver.Solve(new() { Units = units, Together = visible - Mm(0.02m) })!.Moved);
    }
}
