using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

internal static class Readings
{
    public static StationReading Measured(decimal station, decimal value, decimal u = 0m) =>
        new(Mm(station), new MeasuredValue(Mm(value), StandardUncertainty.From(Mm(u))));

    public static StationReading Interval(decimal station, decimal lower, decimal upper) =>
        new(Mm(station), LengthInterval.Between(Mm(lower), Mm(upper)));

    public static ImmutableArray<StationReading> Mirrored(
        this ImmutableArray<StationReading> readings,
        decimal width
    ) => [.. readings.Select(r => r with { Station = Mm(width) - r.Station })];

    public static decimal Value(this Knowledge? knowledge) =>
        Assert.IsType<MeasuredValue>(knowledge).Value.Millimetres;

    public static decimal U(this Knowledge? knowledge) =>
        Assert.IsType<MeasuredValue>(knowledge).Uncertainty.Value.Millimetres;
}
