using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>
/// The setting that comes nearest: where nothing may touch, the values of the first two come from trying every setting within the
/// travel and every order of turning, in fractions.
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

    /// <summary>
    /// 0.05 half way between the adjusters, a step of 0.01 on either side moves it by 0.005. Inside both prints it would miss by 0.0024
    /// either way, and nothing would be turned; by the print that it is held to 0.055 misses by 0.001 only.
    /// </summary>
    [Fact]
    public void Solve_HeldToOnePrintOfTwo_ComesNearestToThat()
    {
        var nearest = Nearest(
            OnePlace(250m, 0.05m) with
            {
                HeldTo = ToleranceZone.Between(Mm(0.0524m), Mm(0.0540m)),
            }
        );

        Assert.Equal((1, 0), (nearest.LeftSteps, nearest.RightSteps));
    }

    /// <summary>All of these settings keep the print that is told: of them the one that misses both prints by least, steps away either way.</summary>
    [Theory]
    [InlineData(0.07, -2)]
    [InlineData(0.03, 2)]
    public void Solve_HeldToAPrintThatIsKept_ComesNearestToBoth(decimal value, int right)
    {
        var nearest = Nearest(
            OnePlace(500m, value) with
            {
                HeldTo = ToleranceZone.Between(Mm(0.01m), Mm(0.09m)),
            }
        );

        Assert.Equal((0, right), (nearest.LeftSteps, nearest.RightSteps));
    }

    /// <summary>
    /// The left end is thirteen steps above and goes five. That takes the middle out, 0.09825; five opened on the right bring it back to
    /// 0.13 and change nothing of the left: leaving it in costs nothing, and nothing is told of that.
    /// </summary>
    [Fact]
    public void Solve_LeavingInWhatIsInCostsNothing_DoesSoAndTellsNoLoss()
    {
        var nearest = Nearest(Gap(5, 250m, 0.13m));

        Assert.Equal((-5, 5), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(Mm(0.0984m), nearest.Excess);
        Assert.False(nearest.KeepsIn);
    }

    /// <summary>
    /// One step on the left takes the right end out by 0.6 of a step, and one on the right gives 0.4 back, which is too little: nothing
    /// that leaves it in betters the left end, which goes before.
    /// </summary>
    [Fact]
    public void Solve_NothingThatLeavesInWhatIsInBettersAnything_TurnsAllTheSame()
    {
        var nearest = Nearest(Gap(1, 200m, 0.12667m));

        Assert.Equal((-1, 0), (nearest.LeftSteps, nearest.RightSteps));
        Assert.Equal(Mm(0.1492m), nearest.Excess);
        Assert.False(nearest.KeepsIn);
    }

    /// <summary>One place in steps of 0.01 that do not reach a narrow zone about 0.0525.</summary>
    private static ClickTask OnePlace(decimal station, decimal value) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.01m),
            Readings = [Measured(station, value)],
            Width = Mm(500m),
            Zone = ToleranceZone.Between(Mm(0.0524m), Mm(0.0526m)),
            Target = Mm(0.0525m),
            StationsOnly = true,
        };

    /// <summary>A gap of 0.3 at the left end and another at the right one, to be 0.1254 to 0.1381, adjusters at 0 and 500.</summary>
    private static ClickTask Gap(int travel, decimal width, decimal right) =>
        new()
        {
            Adjusters = ClickSolverTests.Pair(0m, 500m, 0.0127m) with { Travel = travel },
            Readings = [Measured(0m, 0.3m), Measured(width, right)],
            Width = Mm(width),
            Zone = ToleranceZone.Between(Mm(0.1254m), Mm(0.1381m)),
            Target = Mm(0.13175m),
            KeepClear = true,
        };

    private static NearestSetting Nearest(ClickTask task) =>
        Assert.IsType<ClickSolution.Infeasible>(ClickSolver.Solve(task)).Nearest!;

    private static NearestSetting Nearest(
        decimal left,
        decimal right,
        decimal leftAt,
        decimal rightAt,
        ToleranceZone zone
    ) =>
        Nearest(
            new ClickTask
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
        );
}
