using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Wear;

/// <summary>By hand: 0.00, 0.01, 0.02, 0.03 and 0.04 mm on five days running have one slope, 0.01 mm a day.</summary>
public sealed class DayTrendTests
{
    private static readonly DateOnly First = new(2026, 4, 1);

    private static IEnumerable<(DateOnly Day, Length Value)> Daily(params decimal[] values) =>
        values.Select((value, day) => (First.AddDays(day), Mm(value)));

    [Fact]
    public void Through_AZeroThatCreeps_MovesByTheSlopeTimesTheDays()
    {
        var trend = DayTrend.Through(Daily(0m, 0.01m, 0.02m, 0.03m, 0.04m))!;

        Assert.Equal(Mm(0.04m), trend.Moved);
        Assert.True(trend.Moves);
        // Five in order: 1 - 2/120 by the rank interval.
        Assert.Equal(Probability.Of(0.983333333m), trend.Level);
    }

    [Fact]
    public void Through_AZeroThatGoesBackAndForth_DoesNotMove() =>
        Assert.False(DayTrend.Through(Daily(0m, 0.01m, 0m, 0.01m, 0m))!.Moves);

    [Fact]
    public void Through_TwoChecksOfOneDay_CountAsTheirMean() =>
        Assert.Equal(
            Mm(0.02m),
            DayTrend.Through([.. Daily(0m, 0.005m, 0.02m), (First.AddDays(1), Mm(0.015m))])!.Moved
        );

    [Fact]
    public void Through_TwoDays_TellsNothing() => Assert.Null(DayTrend.Through(Daily(0m, 0.01m)));
}
