using System.Collections.Immutable;
using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>Outside values: parallelism.json (ISO 1101:2017, ISO 5459:2011), at 1e-9 mm, slopes at 1e-12.</summary>
public sealed class ParallelismTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "parallelism.json", "cases");

    public static TheoryData<string> CaseIds() => Cases.Ids();

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void Of_ReferencePoints_GivesTheirStraightnessAndSlopes(string id)
    {
        var given = Cases.Named(id);
        var datum = Points(given, "datum_z_mm");
        var feature = Points(given, "feature_z_mm");
        var expected = given.GetProperty("datum");

        var minimum = StraightnessZone.Of(datum, LineAssociation.MinimumZone)!;
        var squares = StraightnessZone.Of(datum, LineAssociation.LeastSquares)!;

        Assert.Equal(Exact(expected.GetProperty("minimum_zone_slope"))!.Value, minimum.Slope, 12);
        Assert.Equal(Exact(expected.GetProperty("least_squares_slope"))!.Value, squares.Slope, 12);
        Near(expected.GetProperty("minimum_zone_straightness_mm"), minimum.Width);
        Near(
            given.GetProperty("feature").GetProperty("minimum_zone_straightness_mm"),
            StraightnessZone.Of(feature, LineAssociation.MinimumZone)!.Width
        );
    }

    [Theory]
    [MemberData(nameof(CaseIds))]
    public void ToDatum_ReferenceLines_GivesTheirParallelismAndVerdict(string id)
    {
        var given = Cases.Named(id);
        var feature = Exactly(Points(given, "feature_z_mm"));
        var datum = Exactly(Points(given, "datum_z_mm"));
        var tolerance = Exact(given.GetProperty("tolerance_mm"))!.Value;

        var minimum = Parallelism.ToDatum(feature, datum, LineAssociation.MinimumZone)!.Deviation.Value();
        var squares = Parallelism.ToDatum(feature, datum, LineAssociation.LeastSquares)!.Deviation.Value();

        var expected = given.GetProperty("parallelism_mm");
        Near(expected.GetProperty("to_minimum_zone_datum"), Mm(minimum));
        Near(expected.GetProperty("to_least_squares_datum"), Mm(squares));
        Assert.Equal(
            Exact(expected.GetProperty("cosine_correction_ignored_minimum_zone"))!.Value,
            minimum,
            12
        );
        Assert.Equal(
            Exact(expected.GetProperty("cosine_correction_ignored_least_squares"))!.Value,
            squares,
            12
        );
        var conforms = given.GetProperty("conforms");
        Assert.Equal(conforms.GetProperty("minimum_zone_datum").GetBoolean(), minimum <= tolerance);
        Assert.Equal(conforms.GetProperty("least_squares_datum").GetBoolean(), squares <= tolerance);
    }

    [Fact]
    public void ToDatum_DatumWornAtOneEnd_CanBeWiderByMinimumZoneThanByLeastSquares()
    {
        // Straightness is never wider by minimum zone; parallelism to such a datum can be (case P3: 0.0200 > 0.0169).
        var given = Cases.Named("P3-datum-worn-at-one-end");
        var feature = Exactly(Points(given, "feature_z_mm"));
        var datum = Exactly(Points(given, "datum_z_mm"));

        Assert.True(
            Parallelism.ToDatum(feature, datum, LineAssociation.MinimumZone)!.Deviation.Value()
                > Parallelism.ToDatum(feature, datum, LineAssociation.LeastSquares)!.Deviation.Value()
        );
    }

    [Fact]
    public void FromDistances_PureTilt_IsFullyOutOfParallel() =>
        Assert.Equal(
            0.06m,
            Parallelism
                .FromDistances([Measured(0m, 0.01m), Measured(250m, 0.04m), Measured(500m, 0.07m)])!
                .Deviation.Value()
        );

    [Fact]
    public void FromDistances_TwoReadings_CarryTheirDifferencesUncertaintyWithoutTheSharedPart()
    {
        ImmutableArray<StationReading> distances =
        [
            Measured(51m, 0.02m, 0.01m),
            Measured(459m, 0.05m, 0.01m),
        ];

        Assert.Equal(0.0141422m, Parallelism.FromDistances(distances)!.Deviation.U());
        // √2·√(0.01² - 0.008²) = 0.00848528
        Assert.Equal(
            0.0084853m,
            Parallelism.FromDistances(distances, StandardUncertainty.From(Mm(0.008m)))!.Deviation.U()
        );
    }

    [Fact]
    public void FromDistances_Intervals_BoundTheRangeFromBothSides()
    {
        var apart = Parallelism.FromDistances([Interval(51m, 0.01m, 0.02m), Interval(459m, 0.05m, 0.07m)])!;
        var overlapping = Parallelism.FromDistances([
            Interval(51m, 0.01m, 0.06m),
            Interval(459m, 0.05m, 0.07m),
        ])!;

        Assert.Equal(LengthInterval.Between(Mm(0.03m), Mm(0.06m)), apart.Deviation);
        Assert.Equal(LengthInterval.Between(Mm(0m), Mm(0.06m)), overlapping.Deviation);
    }

    [Fact]
    public void ToDatum_MeasuredDatum_AddsTheUncertaintyOfItsSlope()
    {
        // Feature exact; datum through two points 400 apart with u = 0.003: u(slope)·500 = 0.003·√2·500/400.
        var result = Parallelism.ToDatum(
            [Measured(0m, 0m), Measured(500m, 0.05m)],
            [Measured(50m, 0m, 0.003m), Measured(450m, 0m, 0.003m)],
            LineAssociation.MinimumZone
        )!;

        Assert.Equal(0.0053034m, result.Deviation.U());
    }

    [Fact]
    public void ToDatum_DatumKnownByIntervalOnly_IsNotComputed() =>
        Assert.Null(
            Parallelism.ToDatum(
                [Measured(0m, 0m), Measured(500m, 0m)],
                [Interval(0m, 0m, 1m), Measured(500m, 0m)],
                LineAssociation.LeastSquares
            )
        );

    [Property(MaxTest = PropertyCases.Each)]
    public void Of_AnyPoints_IsNeverWiderByMinimumZone(sbyte[] values, sbyte slope)
    {
        var points = Spread(values);
        if (StraightnessZone.Of(points, LineAssociation.MinimumZone) is not { } minimum)
        {
            return;
        }

        Assert.True(minimum.Width <= StraightnessZone.Of(points, LineAssociation.LeastSquares)!.Width);
        // Nor than along any other slope.
        var other = points
            .Select(p => p.Value.Millimetres - (slope * 0.0001m * p.Station.Millimetres))
            .ToList();
        Assert.True(minimum.Width.Millimetres <= other.Max() - other.Min());
    }

    /// <summary>
    /// Another way to the least zone: a line through two points with all others on one side of it, an edge of their hull,
    /// and the farthest point from it.
    /// </summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Of_AnyPoints_IsAsWideAsTheNarrowestEdgeOfTheirHullSays(sbyte[] values)
    {
        var points = Spread(values);
        if (StraightnessZone.Of(points, LineAssociation.MinimumZone) is not { } minimum)
        {
            return;
        }

        var narrowest = (
            from a in points
            from b in points
            where a.Station < b.Station
            let heights = points
                .Select(p =>
                    ((p.Value - a.Value).Millimetres * (b.Station - a.Station).Millimetres)
                    - ((b.Value - a.Value).Millimetres * (p.Station - a.Station).Millimetres)
                )
                .ToList()
            where heights.TrueForAll(h => h >= 0) || heights.TrueForAll(h => h <= 0)
            select heights.Max(Math.Abs) / (b.Station - a.Station).Millimetres
        ).Min();

        ReferenceNumber.Near(narrowest, minimum.Width.Millimetres);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Of_PointsInAnyOrderMirroredOrShifted_IsTheSameZone(
        sbyte[] values,
        int seed,
        short by,
        bool squares
    )
    {
        var association = squares ? LineAssociation.LeastSquares : LineAssociation.MinimumZone;
        var points = Spread(values);
        if (StraightnessZone.Of(points, association) is not { } zone)
        {
            return;
        }

        var shuffled = points.ToArray();
        new Random(seed).Shuffle(shuffled);
        var shifted = points.Select(p => p with { Value = p.Value + Mm(by) });
        var mirrored = points.Select(p => p with { Station = Mm(600m) - p.Station });

        Assert.Equal(zone, StraightnessZone.Of([.. shuffled], association));
        Assert.Equal(zone, StraightnessZone.Of([.. shifted], association));
        ReferenceNumber.Near(
            zone.Width.Millimetres,
            StraightnessZone.Of([.. mirrored], association)!.Width.Millimetres
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void ToDatum_MirroredOrSharedTilt_KeepsTheDeviation(
        sbyte[] feature,
        sbyte[] datum,
        sbyte tilt,
        bool squares
    )
    {
        var association = squares ? LineAssociation.LeastSquares : LineAssociation.MinimumZone;
        var (f, d) = (Exactly(Spread(feature)), Exactly(Spread(datum)));
        if (Parallelism.ToDatum(f, d, association) is not { } plain)
        {
            return;
        }

        var mirrored = Parallelism.ToDatum(f.Mirrored(600m), d.Mirrored(600m), association)!;
        var tilted = Parallelism.ToDatum(Tilted(f, tilt), Tilted(d, tilt), association)!;

        Near(plain.Deviation, mirrored.Deviation);
        Near(plain.Deviation, tilted.Deviation);
        ReferenceNumber.Near(plain.DatumSlope, -mirrored.DatumSlope, 1e-15m);
    }

    private static void Near(Knowledge expected, Knowledge actual) =>
        Assert.True(Math.Abs(expected.Value() - actual.Value()) <= 0.00000000001m);

    private static ImmutableArray<StationReading> Tilted(
        ImmutableArray<StationReading> readings,
        sbyte tilt
    ) =>
        [
            .. readings.Select(r =>
                r with
                {
                    Knowledge = r.Knowledge.ShiftedBy(r.Station * (tilt * 0.0001m), Length.Zero),
                }
            ),
        ];

    private static ImmutableArray<StationPoint> Spread(sbyte[] values) =>
        [.. values.Take(9).Select((v, i) => new StationPoint(Mm(10m + (i * 64m)), Mm(v * 0.001m)))];

    private static ImmutableArray<StationPoint> Points(JsonElement given, string member) =>
        [
            .. given
                .GetProperty("x_mm")
                .EnumerateArray()
                .Zip(given.GetProperty(member).EnumerateArray())
                .Select(pair => new StationPoint(
                    Millimetres(pair.First)!.Value,
                    Millimetres(pair.Second)!.Value
                )),
        ];

    private static ImmutableArray<StationReading> Exactly(ImmutableArray<StationPoint> points) =>
        [.. points.Select(p => new StationReading(p.Station, MeasuredValue.Exact(p.Value)))];

    private static void Near(JsonElement expected, Length actual) =>
        Assert.InRange(
            actual.Millimetres,
            Exact(expected)!.Value - 0.000000001m,
            Exact(expected)!.Value + 0.000000001m
        );
}
