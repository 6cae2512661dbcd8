using System.Text.Json;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.TestKit;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>
/// Outside values: JCGM 100:2008, H.1, calibration of a 50 mm end gauge (gum-h1-end-gauge.json). Nanometres in the
/// reference, millimetres here.
/// </summary>
public sealed class EndGaugeTests
{
    private const double Nanometre = 1e-6;

    private static readonly Length Standard = Mm(50.000623m);

    private static JsonElement Reference { get; } =
        JsonDocument.Parse(ReferenceFiles.ReadText("metrology", "gum-h1-end-gauge.json")).RootElement;

    private static JsonElement Computed => Reference.GetProperty("computed_outputs_from_printed_inputs");

    private static ThermalExpansion Printed { get; } =
        new(
            new(-0.1, 0.41),
            new(11.5e-6, 1.2e-6),
            new(0, 0.58e-6, DegreesOfFreedom.Of(50)),
            new(0, 0.029, DegreesOfFreedom.Of(2))
        );

    private static UncertaintyBudget Difference { get; } =
        UncertaintyBudget.Of(
            new(UncertaintySource.Repeatability, 5.8 * Nanometre, DegreesOfFreedom.Of(24)),
            new(UncertaintySource.Reading, 3.9 * Nanometre, DegreesOfFreedom.Of(5)),
            new(UncertaintySource.Reading, 6.7 * Nanometre, DegreesOfFreedom.Of(8))
        );

    private static UncertaintyContribution Certificate { get; } =
        UncertaintyContribution.Calibration(Mm(0.000075m), 3m, DegreesOfFreedom.Of(18));

    private static UncertaintyContribution Compared { get; } =
        new(UncertaintySource.Reading, 9.7 * Nanometre, DegreesOfFreedom.Of(25.6));

    [Fact]
    public void Of_ComparedDifference_HasThePooledUncertaintyOfTheReference()
    {
        Close(
            Computed.GetProperty("u_d_from_components").GetDouble(),
            Difference.CombinedMillimetres / Nanometre
        );
        Close(Computed.GetProperty("nu_d_from_components").GetDouble(), Difference.EffectiveDegreesOfFreedom);
        Assert.Equal(9.7, Difference.CombinedMillimetres / Nanometre, 0.05);
    }

    [Fact]
    public void Of_FirstOrder_MeetsEveryLineTheSumAndTheDegreesOfFreedom()
    {
        var thermal = Printed.Of(Standard);
        var first = UncertaintyBudget.Of([Certificate, Compared, .. thermal.Take(4)]);

        // Lines: certificate, difference, then δα, δθ, α and θ; the last two come to nothing and stay listed.
        Assert.Equal(6, first.Contributions.Length);
        var lines = Computed.GetProperty("contributions_nm");
        double[] expected =
        [
            lines.GetProperty("l_s").GetDouble(),
            lines.GetProperty("d").GetDouble(),
            lines.GetProperty("delta_alpha").GetDouble(),
            lines.GetProperty("delta_theta").GetDouble(),
        ];
        for (var i = 0; i < expected.Length; i++)
        {
            Close(expected[i], first.Contributions[i].Millimetres / Nanometre);
        }

        Assert.Equal(StandardUncertainty.Zero, first.Contributions[4].Uncertainty);
        Assert.Equal(StandardUncertainty.Zero, first.Contributions[5].Uncertainty);
        Close(Computed.GetProperty("u_c_nm").GetDouble(), first.CombinedMillimetres / Nanometre);
        Close(Computed.GetProperty("nu_eff").GetDouble(), first.EffectiveDegreesOfFreedom);
        Assert.Equal(16, first.DegreesOfFreedom.Truncated);
        Assert.Equal(32, first.CombinedMillimetres / Nanometre, 0.5);
    }

    [Fact]
    public void At_NinetyNinePercent_MeetsTheExpandedUncertainty()
    {
        var first = UncertaintyBudget.Of([Certificate, Compared, .. Printed.Of(Standard).Take(4)]);
        var factor = CoverageFactor.At(CoverageLevel.NinetyNine, first.DegreesOfFreedom);

        Close(Computed.GetProperty("k99_nu16").GetDouble(), (double)factor);
        Assert.Equal(2.92, (double)factor, 0.005);
        Close(
            Computed.GetProperty("U99_nm_from_unrounded_uc").GetDouble(),
            (double)factor * first.CombinedMillimetres / Nanometre
        );
        Assert.Equal(93, (double)factor * first.CombinedMillimetres / Nanometre, 0.5);
    }

    [Fact]
    public void Of_SecondOrder_RaisesTheUncertaintyAsPrinted()
    {
        var thermal = Printed.Of(Standard);
        var all = UncertaintyBudget.Of([Certificate, Compared, .. thermal]);
        var terms = Computed.GetProperty("second_order_terms_nm").EnumerateArray().ToList();

        Close(terms[0].GetDouble(), thermal[4].Millimetres / Nanometre);
        Close(terms[1].GetDouble(), thermal[5].Millimetres / Nanometre);
        Close(
            Computed.GetProperty("u_c_with_second_order_nm").GetDouble(),
            all.CombinedMillimetres / Nanometre
        );
        Assert.Equal(34, all.CombinedMillimetres / Nanometre, 0.5);
    }

    [Fact]
    public void Of_UnroundedInputs_MeetsTheirOwnResults()
    {
        var unrounded = new ThermalExpansion(
            new(-0.1, 0.41),
            new(11.5e-6, 1.2e-6),
            new(0, 1e-6 / Math.Sqrt(3), DegreesOfFreedom.Of(50)),
            new(0, 0.05 / Math.Sqrt(3), DegreesOfFreedom.Of(2))
        );
        var expected = Reference.GetProperty("computed_outputs_from_unrounded_inputs");
        var difference = new UncertaintyContribution(
            UncertaintySource.Reading,
            Difference.CombinedMillimetres,
            DegreesOfFreedom.Of(25.6)
        );

        var budget = UncertaintyBudget.Of([Certificate, difference, .. unrounded.Of(Standard).Take(4)]);

        Close(expected.GetProperty("u_c_nm").GetDouble(), budget.CombinedMillimetres / Nanometre);
        Close(
            expected.GetProperty("contributions_nm").GetProperty("delta_theta").GetDouble(),
            budget.Contributions[3].Millimetres / Nanometre
        );
    }

    [Theory]
    // 125 mm, 30 degC: differences of temperature 125·11.5e-6·10/√3 = 0.0082994 mm; of coefficient 125·10·1e-6/√3 =
    // 0.0007217; products 125·(1/√3)·(1e-6/√3) = 0.0000417 and 125·(2e-6/√3)·(10/√3) = 0.0008333. Root of squares
    // 0.0083724.
    [InlineData("30 degC", 0.0083724)]
    [InlineData("10 degC", 0.0083724)]
    // At 20 degC only the product of reading the temperature and of the coefficients is left: 125e-6/3.
    [InlineData("68 degF", 0.0000417)]
    public void SteelWithSteel_InAWarmWorkshop_GrowsWithTheDeviation(string temperature, decimal expected)
    {
        var budget = UncertaintyBudget.Of(
            ThermalExpansion.SteelWithSteel(Temperature.Parse(temperature).OrThrow()).Of(Mm(125m))
        );

        Near(expected, budget.Combined.Value.Millimetres, 0.00000011m);
    }

    private static void Close(double expected, double actual) => Assert.Equal(1, actual / expected, 1e-9);
}
