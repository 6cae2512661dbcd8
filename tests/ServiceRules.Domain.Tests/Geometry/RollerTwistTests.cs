using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>Outside values: turf/formulas.json, F19 and F36 (their formulas; neither prints figures for twist in mm).</summary>
public sealed class RollerTwistTests
{
    private static WidthFit Gaps(decimal left, decimal right, decimal inboard = 0m) =>
        WidthFit.Through([Measured(inboard, left, 0.01m), Measured(500m - inboard, right, 0.01m)], Mm(500m))!;

    // (front left - front right) - (rear left - rear right).
    [Theory]
    [InlineData(0.12, 0.00, 0.00, 0.00, 0.12)]
    [InlineData(0.00, 0.12, 0.00, 0.00, -0.12)]
    [InlineData(0.00, 0.00, 0.12, 0.00, -0.12)]
    [InlineData(0.00, 0.00, 0.00, 0.12, 0.12)]
    [InlineData(0.10, 0.03, 0.02, 0.01, 0.06)]
    public void Of_FourCorners_IsTheDifferenceOfTheirDifferences(
        decimal frontLeft,
        decimal frontRight,
        decimal rearLeft,
        decimal rearRight,
        decimal twist
    )
    {
        var known = RollerTwist.Of(Gaps(frontLeft, frontRight), Gaps(rearLeft, rearRight));

        Assert.Equal(twist, known.Value());
        // The tilt of each roller is rounded up before they are brought together.
        Assert.InRange(known.U(), 0.02m, 0.0200002m);
    }

    /// <summary>At the blade ends: feeler times length of the blade over length of the roller's contact, 500 over 400.</summary>
    [Fact]
    public void Of_CornersInboardOfTheBlade_GrowsToItsEnds() =>
        Assert.Equal(0.15m, RollerTwist.Of(Gaps(0.12m, 0m, 50m), Gaps(0m, 0m, 50m)).Value());

    [Fact]
    public void Of_Intervals_TakesAllThatTheyAdmit()
    {
        WidthFit Between(decimal left, decimal right) =>
            WidthFit.Through(
                [Interval(0m, left, left + 0.01m), Interval(500m, right, right + 0.01m)],
                Mm(500m)
            )!;

        Assert.Equal(
            LengthInterval.Between(Mm(0.08m), Mm(0.12m)),
            RollerTwist.Of(Between(0.1m, 0m), Between(0m, 0m))
        );
    }
}
