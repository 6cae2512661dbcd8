using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>The settings a unit may be given, and their order: the first of equals is the one that is taken.</summary>
public sealed class MatchOptionsTests
{
    /// <summary>Parts of 0.1 mm about a target of 4.00.</summary>
    private static MatchUnit Unit(decimal left, decimal right, MoveKind moves) =>
        MatchSolverTests.Unit(left, right) with
        {
            MustMove = true,
            Moves = moves,
            Part = Mm(0.1m),
            Zone = ToleranceZone.Between(Mm(3.9m), Mm(4.1m)),
        };

    private static string Told(MatchUnit unit) =>
        string.Join(
            "; ",
            MatchOptions
                .Of(unit)
                .Select(setting =>
                    $"{setting.LeftEnd.Millimetres:0.###} {setting.RightEnd.Millimetres:0.###}"
                )
        );

    [Fact]
    public void Of_AUnitSetBySteps_BeginsWithTheFewestStepsAndThenTheLowest() =>
        Assert.Equal(
            "4.05 4.05; 3.95 4.05; 4.05 3.95; 3.95 3.95",
            Told(Unit(4.15m, 4.15m, MoveKind.BySteps))
        );

    [Fact]
    public void Of_AUnitSetByParts_BeginsWithTheNearestToTheTarget() =>
        Assert.Equal(
            "4.02 4.02; 3.92 4.02; 4.02 3.92; 3.92 3.92",
            Told(Unit(4.12m, 4.12m, MoveKind.ByParts))
        );

    [Fact]
    public void Of_OneLeftEnd_BeginsWithTheLowerRightEnd() =>
        Assert.Equal(
            "4 3.95; 4 4.05",
            Told(
                Unit(4.10m, 4.15m, MoveKind.ByParts) with
                {
                    Zone = ToleranceZone.Between(Mm(3.95m), Mm(4.05m)),
                }
            )
        );

    /// <summary>
    /// Half a part to go is a tie, and the smaller turn is none; of one part beside it either way the lower is half a part from the
    /// left end, and the upper one and a half, which is not level to within a part.
    /// </summary>
    [Fact]
    public void Of_ARightEndHalfAPartOff_LiesAboutTheSmallerTurn() =>
        Assert.Equal(
            ["3.95"],
            MatchOptions
                .Of(Unit(4.00m, 4.05m, MoveKind.ByParts) with { Zone = null })
                .Where(setting => setting.LeftEnd == Mm(4.00m))
                .Select(setting => $"{setting.RightEnd.Millimetres:0.##}")
        );

    /// <summary>Right ends in whole parts from the left: the same, and one part to either side.</summary>
    [Fact]
    public void Of_EndsWholePartsApart_LieAPartApartAtMost() =>
        Assert.Equal(
            ["3.9", "4.1"],
            MatchOptions
                .Of(Unit(4.00m, 4.00m, MoveKind.ByParts) with { Zone = null })
                .Where(setting => setting.LeftEnd == Mm(4.00m))
                .Select(setting => $"{setting.RightEnd.Millimetres:0.##}")
        );

    /// <summary>
    /// Sixty parts of 0.1 about 4.00 are -2 to 10. From 3.94 that is 59.4 parts down and 60.6 up, set to the nearest; from 3.95 59.5 and
    /// 60.5, ties, set to the smaller turn.
    /// </summary>
    [Theory]
    [InlineData(3.94, -1.96, 10.04)]
    [InlineData(3.95, -1.95, 9.95)]
    public void Of_AUnitSetByParts_ReachesThePartNearestToEachLevel(decimal now, decimal low, decimal high)
    {
        var heights = MatchOptions
            .Of(Unit(now, now, MoveKind.ByParts) with { Zone = null })
            .Select(option => option.LeftEnd)
            .ToList();

        Assert.Equal((Mm(low), Mm(high)), (heights.Min(), heights.Max()));
    }

    [Fact]
    public void Of_AUnitThatMayStay_BeginsWithStaying()
    {
        var options = MatchOptions.Of(Unit(4.30m, 4.30m, MoveKind.BySteps) with { MustMove = false });

        Assert.False(options[0].IsMoved);
        Assert.All(options.Skip(1), option => Assert.True(option.IsMoved));
    }

    [Fact]
    public void Of_AUnitWithoutAZone_ReachesSixtyPartsEitherWay()
    {
        var heights = MatchOptions
            .Of(Unit(4m, 4m, MoveKind.Freely) with { Zone = null })
            .Select(option => option.LeftEnd)
            .ToList();

        Assert.Equal((Mm(-2m), Mm(10m)), (heights.Min(), heights.Max()));
    }
}
