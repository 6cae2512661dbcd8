using System.Text.Json;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.Geometry.Readings;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Geometry;

/// <summary>Outside values: turf/formulas.json, F22 to F24, at the digits that they are printed with.</summary>
public sealed class ReelFormTests
{
    private static JsonElement Example(string id) =>
        ReferenceCases.In("turf", "formulas.json", "formulas").Named(id).GetProperty("worked_example");

    private static decimal Given(string id, string symbol) =>
        Exact(Example(id).GetProperty("inputs").GetProperty(symbol))!.Value;

    private static decimal Printed(string id, string member) =>
        Exact(Example(id).GetProperty("result").GetProperty(member))!.Value;

    private static ReelForm Form(decimal width, params StationReading[] diameters) =>
        ReelForm.Of(WidthFit.Through([.. diameters], Mm(width))!);

    /// <summary>The trailing end stands left here, so that taper as printed, leading less trailing, is right less left.</summary>
    [Fact]
    public void Taper_OfTheWorkedExample_IsTheDifferenceOfItsEnds()
    {
        var length = Given("F22", "L");
        var form = Form(
            length,
            Measured(0m, Given("F22", "D_trail"), 0.01m),
            Measured(length, Given("F22", "D_lead"), 0.01m)
        );

        Assert.Equal(Printed("F22", "taper_mm"), form.Taper.Value());
        Assert.Equal(
            Printed("F22", "cone_half_angle_deg"),
            ReelForm.ConeHalfAngle(Mm(Printed("F22", "taper_mm")), Mm(length)).Degrees
        );
        Assert.Equal(0.0141422m, form.Taper.U());
        Assert.Null(form.Barrel);
        Assert.Null(form.GapError);
    }

    [Fact]
    public void HeightTilt_OfTheWorkedExample_IsHalfTheTaper()
    {
        var taper = Given("F23", "taper");
        var form = Form(500m, Measured(0m, 0m, 0.01m), Measured(500m, taper, 0.01m));

        Assert.Equal(Printed("F23", "tilt_mm"), form.HeightTilt.Value());
        Assert.Equal(Printed("F23", "tilt_in"), Math.Round(form.HeightTilt.Value() / 25.4m, 4));
        Assert.Equal(0.0070711m, form.HeightTilt.U());
    }

    [Fact]
    public void Barrel_OfTheWorkedExample_IsTheMiddleLessTheMeanOfTheEnds()
    {
        var form = Form(
            500m,
            Measured(0m, Given("F24", "D_lead"), 0.01m),
            Measured(250m, Given("F24", "D_mid"), 0.01m),
            Measured(500m, Given("F24", "D_trail"), 0.01m)
        );

        Assert.Equal(Printed("F24", "bow_mm"), form.Barrel.Value());
        Assert.Equal(Printed("F24", "gap_error_mid_mm"), form.GapError.Value());
    }

    [Fact]
    public void HeightTilt_OfIntervals_IsHalfOfTheirEnds()
    {
        var form = Form(500m, Interval(0m, 127.00m, 127.02m), Interval(500m, 127.10m, 127.20m));

        Assert.Equal(LengthInterval.Between(Mm(0.08m), Mm(0.20m)), form.Taper);
        Assert.Equal(LengthInterval.Between(Mm(0.04m), Mm(0.10m)), form.HeightTilt);
    }

    [Fact]
    public void ConeHalfAngle_OfNoLength_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ReelForm.ConeHalfAngle(Mm(0.1m), Length.Zero));
        Assert.Equal(45m, ReelForm.ConeHalfAngle(Mm(-2m), Mm(1m)).Degrees);
    }
}
