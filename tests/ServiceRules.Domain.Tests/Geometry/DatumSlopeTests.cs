using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using static ServiceRules.Domain.Tests.Geometry.Readings;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>How well the slope of a datum is known, told by an exactly known feature of 500 mm over it.</summary>
public sealed class DatumSlopeTests
{
    private static Parallelism Over(
        LineAssociation association,
        params ImmutableArray<StationReading> datum
    ) => Parallelism.ToDatum([Measured(0m, 0m), Measured(500m, 0m)], datum, association)!;

    /// <summary>All pairs of a straight datum have its slope; the longest knows it best: 0.003·√2/500, times 500.</summary>
    [Fact]
    public void ToDatum_OfAStraightDatum_RestsOnItsOutermostPoints()
    {
        var parallelism = Over(
            LineAssociation.MinimumZone,
            Measured(0m, 0m, 0.003m),
            Measured(250m, 0m, 0.003m),
            Measured(500m, 0m, 0.003m)
        );

        Assert.Equal((0m, 0.0042427m), (parallelism.DatumSlope, parallelism.Deviation.U()));
    }

    /// <summary>
    /// Read twice in the middle, 0.02 apart, the zone is 0.02 wide along every slope from -0.01/250 to 0.01/250: the middle
    /// of them counts, by the ends (z₂ - z₁)/250 and (z₃ - z₁)/250. Its mean, (z₂ + z₃ - 2·z₁)/500, times 500 has
    /// 0.003·√6 = 0.0073485.
    /// </summary>
    [Fact]
    public void ToDatum_WhereSlopesTie_LiesInTheirMiddle()
    {
        var parallelism = Over(
            LineAssociation.MinimumZone,
            Measured(0m, 0m, 0.003m),
            Measured(250m, -0.01m, 0.003m),
            Measured(250m, 0.01m, 0.003m),
            Measured(500m, 0m, 0.003m)
        );

        Assert.Equal((0m, 0.0073485m), (parallelism.DatumSlope, parallelism.Deviation.U()));
    }

    /// <summary>u(slope) = u/√Σ(x - x̄)²: stations 0, 100 and 500 have Σ = 140 000, so 0.003·500/374.1657 = 0.0040090.</summary>
    [Fact]
    public void ToDatum_ByLeastSquares_CarriesTheUncertaintyOfTheSlope()
    {
        var parallelism = Over(
            LineAssociation.LeastSquares,
            Measured(0m, 0m, 0.003m),
            Measured(100m, 0m, 0.003m),
            Measured(500m, 0m, 0.003m)
        );

        Assert.Equal(0.004009m, parallelism.Deviation.U());
    }
}
