using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>The greatest less the least of several values, as distances from a datum have it.</summary>
public sealed class KnownRangeTests
{
    private static Knowledge? RangeOf(params ImmutableArray<StationReading> distances) =>
        Parallelism.FromDistances(distances)?.Deviation;

    [Fact]
    public void Of_FewerThanTwoReadings_IsUnknown()
    {
        Assert.Null(RangeOf());
        Assert.Null(RangeOf(Measured(0m, 0.01m)));
    }

    /// <summary>Two stand equally high, one known worse: 0.01·√2 = 0.0141422 and √(0.01² + 0.02²) = 0.0223607.</summary>
    [Fact]
    public void Of_ReadingsThatTie_IsAsUncertainAsTheWorstOfThem()
    {
        var (low, well, badly) = (
            Measured(0m, 0m, 0.01m),
            Measured(250m, 0.03m, 0.01m),
            Measured(500m, 0.03m, 0.02m)
        );

        Assert.Equal(0.0223607m, RangeOf(low, well, badly).U());
        Assert.Equal(0.0223607m, RangeOf(low, badly, well).U());
    }

    [Fact]
    public void Of_ReadingsOfOneGauge_LeavesOutWhatTheyShare()
    {
        // √2·√(0.01² - 0.008²) = 0.00848528.
        var shared = new SharedError(StandardUncertainty.From(Mm(0.008m)), "gauge");
        var (left, right) = (Measured(51m, 0.02m, 0.01m), Measured(459m, 0.05m, 0.01m));

        Assert.Equal(0.0084853m, RangeOf(left with { Shared = shared }, right with { Shared = shared }).U());
    }

    /// <summary>Two readings from 0.02, over one up to 0.01: the range is above 0.01 where either excludes its end.</summary>
    [Fact]
    public void Of_IntervalsWhoseBoundsTie_KeepsTheOpenOne()
    {
        var low = Interval(0m, 0m, 0.01m);
        var closed = Interval(250m, 0.02m, 0.03m);
        Assert.True(
            LengthInterval.TryCreate(
                IntervalEnd.Open(Mm(0.02m)),
                IntervalEnd.Closed(Mm(0.03m)),
                out var above
            )
        );
        var open = new StationReading(Mm(500m), above);

        Assert.Equal(IntervalEnd.Open(Mm(0.01m)), Lower(RangeOf(low, closed, open)));
        Assert.Equal(IntervalEnd.Open(Mm(0.01m)), Lower(RangeOf(low, open, closed)));
        Assert.Equal(IntervalEnd.Closed(Mm(0.01m)), Lower(RangeOf(low, closed, closed)));
    }

    [Fact]
    public void Of_OneReadingWithoutAnUpperBound_HasNone()
    {
        var range = RangeOf(
            new StationReading(Mm(0m), LengthInterval.AtLeast(Mm(0.05m))),
            Interval(500m, 0.01m, 0.02m)
        );

        Assert.Equal(LengthInterval.AtLeast(Mm(0.03m)), range);
    }

    [Fact]
    public void Of_AnIntervalAmongMeasured_CountsAllAsIntervals()
    {
        // 0.05 ± 2·0.005 over 0.01 to 0.02.
        var range = RangeOf(Measured(0m, 0.05m, 0.005m), Interval(500m, 0.01m, 0.02m));

        Assert.Equal(LengthInterval.Between(Mm(0.02m), Mm(0.05m)), range);
    }

    private static IntervalEnd? Lower(Knowledge? range) => Assert.IsType<LengthInterval>(range).Lower;
}
