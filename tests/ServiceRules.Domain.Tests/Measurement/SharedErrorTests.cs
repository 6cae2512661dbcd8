using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>Correlated inputs: outside values of feeler-gauges.json, and JCGM 100:2008, 5.2.2, by its double sum.</summary>
public sealed class SharedErrorTests
{
    private static IReadOnlyList<JsonElement> Cases { get; } =
        ReferenceCases.In("metrology", "feeler-gauges.json", "computed_cases");

    [Fact]
    public void Of_ThreeFeelersStacked_AddInQuadratureWhenTheyErrAlone()
    {
        var given = Cases.Named("stack-of-three-rss");
        var line = UncertaintyContribution.WithinHalfWidth(
            UncertaintySource.Thickness,
            Mm(Exact(given.GetProperty("a_mm"))!.Value)
        );

        Close(given.GetProperty("u_single_mm").GetDouble(), line.Millimetres);
        Close(
            given.GetProperty("u_stack_mm").GetDouble(),
            UncertaintyBudget.Of(line, line, line).CombinedMillimetres
        );
    }

    [Fact]
    public void Of_TenFeelersOfOneLot_AddUpWhenTheyErrAlike()
    {
        // 0.00035 in either way, in inches as the reference states them.
        var given = Cases.Named("stack-of-ten-correlated");
        var line = UncertaintyContribution.WithinHalfWidth(UncertaintySource.Thickness, Mm(0.00035m));
        UncertaintyContribution[] alone = [.. Enumerable.Repeat(line, 10)];

        Close(
            given.GetProperty("u_stack_independent_in").GetDouble(),
            UncertaintyBudget.Of([.. alone]).CombinedMillimetres
        );
        Close(
            given.GetProperty("u_stack_correlated_in").GetDouble(),
            UncertaintyBudget.Of([.. alone.Select(each => each.CausedBy("lot"))]).CombinedMillimetres
        );
    }

    [Fact]
    public void Of_ADifferenceWithinOneCause_DropsOut()
    {
        var gauge = UncertaintyContribution.Calibration(Mm(0.010m), 2m).CausedBy("gauge");

        var budget = UncertaintyBudget.Of(gauge, gauge.Times(-1));

        Assert.Equal(StandardUncertainty.Zero, budget.Combined);
        Assert.Equal(Mm(0.005m), budget.Contributions[1].Uncertainty.Value);
    }

    [Property(MaxTest = 1000)]
    public void Of_ReadingsThatShareTwoCauses_IsTheDoubleSumOverAllPairs(
        (sbyte C, byte Own, bool Gauge, bool Heat)[] readings
    )
    {
        const double gauge = 0.005;
        const double heat = 0.003;
        List<UncertaintyContribution> lines = [];
        foreach (var (c, own, withGauge, withHeat) in readings)
        {
            lines.Add(new UncertaintyContribution(UncertaintySource.Reading, own * 1e-4, default).Times(c));
            if (withGauge)
            {
                lines.Add(Line(gauge, c, "gauge"));
            }

            if (withHeat)
            {
                lines.Add(Line(heat, c, "heat"));
            }
        }

        // u(xi, xj): own variance on the diagonal, and what both share.
        var variance = 0.0;
        for (var i = 0; i < readings.Length; i++)
        {
            for (var j = 0; j < readings.Length; j++)
            {
                var (one, other) = (readings[i], readings[j]);
                var covariance =
                    (i == j ? one.Own * 1e-4 * one.Own * 1e-4 : 0)
                    + (one.Gauge && other.Gauge ? gauge * gauge : 0)
                    + (one.Heat && other.Heat ? heat * heat : 0);
                variance += one.C * other.C * covariance;
            }
        }

        Assert.Equal(
            Math.Sqrt(Math.Max(0, variance)),
            UncertaintyBudget.Of([.. lines]).CombinedMillimetres,
            1e-7
        );
    }

    private static UncertaintyContribution Line(double u, sbyte c, string cause) =>
        new UncertaintyContribution(UncertaintySource.Reading, u, default).Times(c).CausedBy(cause);

    private static void Close(double expected, double actual) => Assert.Equal(1, actual / expected, 1e-12);
}
