using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>
/// The setting that comes nearest where nothing may touch: its values come from trying every setting within the travel and
/// every order of turning, in fractions.
/// </summary>
public sealed class NearestSettingTests
{
    [Fact]
    public void Solve_BestOfARowIsBarredByComingBack_NamesOneFurtherOpenInTheSameRow()
    {
        // At rest 0.0129 and 0.0218 mm, aimed at 0.002 to 0.006: closing either side by one step would go one too far first, and
        // touch. So nothing is turned, and the right end is 0.0167651 above the zone; one step open on the left would be 0.0187.
        var nearest = Nearest(0.0129m, 0.0218m, 0m, 500m, ToleranceZone.Between(Mm(0.002m), Mm(0.006m)));

        Assert.Equal((0, 0), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(0.0167651m, Math.Round(nearest.Excess.Millimetres, 7));
    }

    [Fact]
    public void Solve_NearestLiesBeyondTheTravel_NamesOneWithinIt()
    {
        // 0.0559 and 0.0044 mm: two steps closed left and two open right leave 0.0084580 to go, three open right would leave 0.0079.
        var nearest = Nearest(0.0559m, 0.0044m, -40m, 530m, ToleranceZone.Between(Mm(0.030m), Mm(0.032m)));

        Assert.Equal((-2, 2), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(0.0084580m, Math.Round(nearest.Excess.Millimetres, 7));
    }

    private static NearestSetting Nearest(
        decimal left,
        decimal right,
        decimal leftAt,
        decimal rightAt,
        ToleranceZone zone
    ) =>
        Assert
            .IsType<ClickSolution.Infeasible>(
                ClickSolver.Solve(
                    new()
                    {
                        Adjusters = ClickSolverTests.Pair(leftAt, rightAt, 0.0127m, Approach.Opening) with
                        {
                            Travel = 2,
                            TakeUp = 1,
                        },
                        Readings = [Measured(40m, left), Measured(455m, right)],
                        Width = Mm(500m),
                        Zone = zone,
                        Target = zone.Middle!.Value,
                        KeepClear = true,
                    }
                )
            )
            .Nearest!;
}
