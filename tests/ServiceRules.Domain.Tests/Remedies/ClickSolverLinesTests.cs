using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>Several blades moved by one pair of adjusters: each line has ends of its own, and all must land.</summary>
public sealed class ClickSolverLinesTests
{
    private static ClickTask Task(
        ImmutableArray<int?> lines,
        params ImmutableArray<StationReading> readings
    ) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.0127m),
            Readings = readings,
            Lines = lines,
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0254m), Mm(0.0381m)),
            Target = Mm(0.03175m),
        };

    private static BindingConstraint Refused(ClickTask task) =>
        Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Binding;

    [Fact]
    public void Solve_FewerLinesThanReadings_IsRefusedInWords() =>
        Assert.StartsWith(
            "1 lines stand beside 2 readings; accepted is one for each, or none",
            Assert
                .Throws<ArgumentException>(() =>
                    ClickSolver.Solve(Task([0], Measured(0m, 0.03m), Measured(500m, 0.03m)))
                )
                .Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void Solve_EachLineReadAtOneStation_KnowsNoEnds() =>
        Assert.Equal(
            BindingConstraint.EndsUnknown,
            Refused(Task([0, 1], Measured(0m, 0.03m), Measured(500m, 0.03m)))
        );

    [Fact]
    public void Solve_OneLineReadAtOneStation_TellsThatStationOfItAlone()
    {
        var plan = Assert.IsType<ClickSolution.Plan>(
            ClickSolver.Solve(
                Task([1, 0, 1], Measured(400m, 0.033m), Measured(250m, 0.036m), Measured(100m, 0.030m))
            )
        );

        // Blade 1 rises by 0.003 on 300 mm: 0.029 and 0.034 at the ends. All are in, and nothing is turned.
        Assert.Equal(
            [
                (LandingPlace.LeftEnd, 1, 0.029m),
                (LandingPlace.Station, 1, 0.030m),
                (LandingPlace.Station, 0, 0.036m),
                (LandingPlace.Station, 1, 0.033m),
                (LandingPlace.RightEnd, 1, 0.034m),
            ],
            plan.Landings.Select(at => (at.Place, at.Line!.Value, at.After.Value()))
        );
        Assert.Empty(plan.Sequence);
    }

    /// <summary>Crowned by more than the zone is wide, beside a blade that is straight.</summary>
    [Fact]
    public void Solve_OneLineOfTwoBowedBeyondTheZone_BindsOnStraightness() =>
        Assert.Equal(
            BindingConstraint.Straightness,
            Refused(
                Task(
                    [0, 0, 0, 1, 1],
                    Measured(0m, 0.03m),
                    Measured(250m, 0.05m),
                    Measured(500m, 0.03m),
                    Measured(0m, 0.04m),
                    Measured(500m, 0.04m)
                )
            )
        );

    /// <summary>Two straight blades, 0.02 apart where the zone leaves 0.0127.</summary>
    [Fact]
    public void Solve_TwoStraightLinesFurtherApartThanTheZone_BindsOnLinesApart() =>
        Assert.Equal(
            BindingConstraint.LinesApart,
            Refused(
                Task(
                    [0, 0, 1, 1],
                    Measured(0m, 0.03m),
                    Measured(500m, 0.03m),
                    Measured(0m, 0.05m),
                    Measured(500m, 0.05m)
                )
            )
        );

    /// <summary>
    /// Two closed on the left, 0.060 to 0.0346, and two opened on the right, 0.010 to 0.0354. What contact is counted on: U 0.002 less,
    /// and then steps that close take 0.02 each and those that open add 0.01.
    /// </summary>
    [Fact]
    public void Solve_StepsThatMayTakeMoreOrAddLess_TellsTheLeastBeforeAndAfter()
    {
        var task = Task([], Measured(0m, 0.060m, 0.001m), Measured(500m, 0.010m, 0.001m));
        var plan = Assert.IsType<ClickSolution.Plan>(
            ClickSolver.Solve(
                task with
                {
                    Adjusters = task.Adjusters with { LeastStep = Mm(0.01m), MostStep = Mm(0.02m) },
                }
            )
        );

        Assert.Equal(
            [(0.058m, 0.018m), (0.008m, 0.028m)],
            plan.Landings.Select(at => (at.LeastBefore!.Value.Millimetres, at.LeastAfter!.Value.Millimetres))
        );
    }
}
