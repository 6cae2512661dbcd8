using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>Which reading lies furthest off the line through all: the one that is read again first. Stations 0, 250 and 500 of 500.</summary>
public sealed class WidthFitOutlyingTests
{
    /// <summary>The line is level at 0.9667: off by 0.0333, -0.0667 and 0.0333.</summary>
    [Fact]
    public void Outlying_OfMeasuredReadings_IsTheFurthestToEitherSide() =>
        Assert.Equal(250m, Outlying(Measured(0m, 1.00m), Measured(250m, 0.90m), Measured(500m, 1.00m)));

    /// <summary>Middles 1.00, 0.94 and 1.00 lie off by 0.02, -0.04 and 0.02; by their lower ends it would be the last, by 0.055.</summary>
    [Fact]
    public void Outlying_OfIntervals_GoesByTheirMiddles() =>
        Assert.Equal(
            250m,
            Outlying(Interval(0m, 0.80m, 1.20m), Interval(250m, 0.93m, 0.95m), Interval(500m, 0.99m, 1.01m))
        );

    /// <summary>Where one end alone is known, of the reading and so of the line, that stands for the middle.</summary>
    [Fact]
    public void Outlying_OfAReadingOpenToOneSide_GoesByTheEndThatIsKnown()
    {
        Assert.Equal(250m, Beside(LengthInterval.AtLeast(Mm(0.90m))));
        Assert.Equal(250m, Beside(LengthInterval.LessThan(Mm(0.90m))));

        static decimal Beside(Knowledge open) =>
            Outlying(Measured(0m, 1.00m), new(Mm(250m), open), Measured(500m, 1.00m));
    }

    private static decimal Outlying(params ImmutableArray<StationReading> readings) =>
        WidthFit.Through(readings, Mm(500m))!.Outlying.Station.Millimetres;
}
