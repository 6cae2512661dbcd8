using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>Which stations and widths still carry a line or a parabola.</summary>
public sealed class WidthFitStationTests
{
    private static WidthFit? Through(decimal width, params decimal[] stations) =>
        WidthFit.Through([.. stations.Select(station => Measured(station, 1m, 0.001m))], Mm(width));

    [Theory]
    [InlineData(1, true)]
    [InlineData(0.999, false)]
    public void Through_AWidth_IsOfOneMillimetreAtLeast(decimal width, bool drawn) =>
        Assert.Equal(drawn, Through(width, 0m, width) is not null);

    [Theory]
    [InlineData(-500, 0, true)]
    [InlineData(-500.001, 0, false)]
    [InlineData(0, 1000, true)]
    [InlineData(0, 1000.001, false)]
    public void Through_Stations_LieWithinAWidthOfTheLine(decimal first, decimal last, bool drawn) =>
        Assert.Equal(drawn, Through(500m, first, last) is not null);

    /// <summary>In widths of 1000 mm, four stations 0.0005 from the middle: Σ(t - t̄)² = 4·0.0005² = 1e-6.</summary>
    [Theory]
    [InlineData(0.5, true)]
    [InlineData(0.499, false)]
    public void Through_StationsCloseTogether_DrawALineFromASpreadOn(decimal off, bool drawn) =>
        Assert.Equal(drawn, Through(1000m, 500m - off, 500m - off, 500m + off, 500m + off) is not null);

    /// <summary>
    /// Stations a and b to both sides of the middle: the parabola's part square to the line is ±(a² - b²)/2, the sum of its
    /// squares (a² - b²)². In widths, 0.00125² - 0.00075² is 1e-6 exactly, so that the sum is 1e-12.
    /// </summary>
    [Theory]
    [InlineData(0.75, true)]
    [InlineData(0.76, false)]
    public void Parabola_OfStationsInTwoHeaps_IsDrawnFromASpreadOn(decimal inner, bool known) =>
        Assert.Equal(
            known,
            !Through(1000m, 498.75m, 500m - inner, 500m + inner, 501.25m)!.DifferencesByParabola.IsEmpty
        );

    /// <summary>
    /// The outer two half of 1000 mm apart, 200 to 700 mm, and one between them in the middle half of that, 325 to 575 mm.
    /// </summary>
    [Theory]
    [InlineData(200, 325, 700, true)]
    [InlineData(200, 575, 700, true)]
    [InlineData(200, 324, 700, false)]
    [InlineData(200, 576, 700, false)]
    [InlineData(200, 450, 699, false)]
    public void Bow_OfStationsThatStandSpread_IsToldAndOfOthersNot(
        int first,
        int second,
        int third,
        bool told
    )
    {
        var fit = Through(1000m, first, second, third)!;

        Assert.Equal((told, told), (fit.IsSpread, fit.Bow is not null));
    }

    /// <summary>Twice at each of two stations: no bow can be told, and the mean of two at an end has 0.01/√2.</summary>
    [Fact]
    public void Through_TwoStationsReadTwice_DrawsTheLineThroughTheirMeans()
    {
        var fit = WidthFit.Through(
            [
                Measured(0m, 1.00m, 0.01m),
                Measured(0m, 1.01m, 0.01m),
                Measured(500m, 1.02m, 0.01m),
                Measured(500m, 1.03m, 0.01m),
            ],
            Mm(500m)
        )!;

        Assert.Null(fit.Bow);
        Assert.Equal((1.005m, 0.0070711m), (fit.LeftEnd.Value(), fit.LeftEnd.U()));
        Assert.Equal(0.02m, fit.Tilt.Value());
    }

    [Fact]
    public void Through_ReadingsInAnyOrder_KeepsThemFromTheLeft()
    {
        var fit = Through(500m, 400m, 100m, 250m)!;

        Assert.Equal(
            ImmutableArray.Create(Mm(100m), Mm(250m), Mm(400m)),
            fit.Readings.Select(reading => reading.Station)
        );
    }
}
