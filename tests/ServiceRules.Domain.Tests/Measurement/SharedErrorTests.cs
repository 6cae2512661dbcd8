using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
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
            UncertaintySource.Scale,
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
        var line = UncertaintyContribution.WithinHalfWidth(UncertaintySource.Scale, Mm(0.00035m));
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

    [Fact]
    public void Of_SensitivitiesThatCancelOnlyInDecimal_DropOut()
    {
        // 0.7 + 0.1 - 0.8 is nothing, though in floating point it is not.
        var gauge = UncertaintyContribution.Calibration(Mm(0.010m), 2m).CausedBy("gauge");

        var budget = UncertaintyBudget.Of(gauge.Times(0.7m), gauge.Times(0.1m), gauge.Times(-0.8m));

        Assert.Equal(StandardUncertainty.Zero, budget.Combined);
    }

    [Fact]
    public void At_ALineOfTwoGauges_SharesOnlyWithinEach()
    {
        // Three readings, u = 0.005 each of which 0.004 shared; stations 0, 50 and 100 of a width of 100: all weigh 1/3 at
        // mid-width. Two by one gauge: (2/3·0.004)² + (1/3·0.004)² shared, 3·(1/3·0.003)² of their own:
        // 7.1111e-6 + 1.7778e-6 + 3e-6 = 1.18889e-5, root 0.00344803; one gauge for all: 0.004² + 3e-6, root 0.00435890;
        // a gauge each: 3·(0.005/3)², root 0.00288675.
        Assert.Equal(Mm(0.0034481m), AtMidWidth("a", "b", "a"));
        Assert.Equal(Mm(0.0043589m), AtMidWidth("a", "a", "a"));
        Assert.Equal(Mm(0.0028868m), AtMidWidth("a", "b", "c"));

        static Length AtMidWidth(params string[] gauges) =>
            (
                (MeasuredValue)
                    WidthFit
                        .Through(
                            [
                                .. gauges.Select(
                                    (gauge, at) =>
                                        new StationReading(
                                            Mm(at * 50),
                                            new MeasuredValue(Mm(4m), StandardUncertainty.From(Mm(0.005m)))
                                        )
                                        {
                                            Shared = new(StandardUncertainty.From(Mm(0.004m)), gauge),
                                        }
                                ),
                            ],
                            Mm(100m)
                        )!
                        .Offset
            )
                .Uncertainty
                .Value;
    }

    [Fact]
    public void At_ALineByALittleKnownCalibration_IsKnownNoBetterThanTheReadings()
    {
        // Calibration 0.005 on 3, resolution 0.001/√12, stations 0, 50 and 100 of a width of 100. At a station the reading
        // alone: u² = 25 + 1/12 µm², 3·(u/5)⁴ = 3.02. The calibration by itself, on 3, where JCGM 100, table G.2, has k = 3.31:
        // 3.306822175006·0.005 = 0.01653411; all together less. The
        // line at the left end weighs 5/6, 1/3 and -1/6: u² = 25 + (25 + 4 + 1)/36/12 = 25.0694, u = 0.0050070,
        // 3·(25.0694/25)² = 3.017, k = 3.30 along 1/ν, 0.0165: less than the calibration by itself. Its tilt weighs -1, 0 and 1: only the resolution is left, taken as known,
        // 0.001·√(2/12) = 0.00040825, k = 2.
        var budget = UncertaintyBudget.Of(
            UncertaintyContribution.Calibration(Mm(0.010m), 2m, DegreesOfFreedom.Of(3)),
            UncertaintyContribution.Resolution(Mm(0.001m))
        );
        SharedError calibration = new(StandardUncertainty.From(Mm(0.005m)), "gauge", DegreesOfFreedom.Of(3))
        {
            Rest = DegreesOfFreedom.Infinite,
        };
        var fit = WidthFit.Through(
            [
                .. new[] { 0m, 50m, 100m }.Select(at => new StationReading(
                    Mm(at),
                    new MeasuredValue(Mm(4m), budget.Combined, budget.DegreesOfFreedom)
                )
                {
                    Shared = calibration,
                }),
            ],
            Mm(100m)
        )!;

        var end = (MeasuredValue)fit.LeftEnd;
        // Uncertainties are kept to 1e-7, rounded up.
        Assert.InRange(end.Uncertainty.Value.Millimetres, 0.005007m, 0.0050072m);
        Assert.Equal(3, end.DegreesOfFreedom.Truncated);
        Assert.Equal(Mm(0.0165342m), end.Expanded.Value);

        var tilt = (MeasuredValue)fit.Tilt;
        Assert.InRange(tilt.Uncertainty.Value.Millimetres, 0.000408m, 0.000411m);
        Assert.True(tilt.DegreesOfFreedom.IsInfinite);
    }

    /// <summary>
    /// A study of two readings, s = 0.010, beside a certificate of u = 0.0275 on twelve and a step of 0.05: by itself the study is
    /// ± 13.967730199245·0.010. Were the certificate no better known than the study, ± 13.97·0.0293 = 0.409.
    /// </summary>
    [Fact]
    public void At_AStationOfNoOneGauge_LeavesTheCertificateItsOwnDegrees()
    {
        var whole = UncertaintyBudget.Of(
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
            UncertaintyContribution.Calibration(Mm(0.0550m), 2m, DegreesOfFreedom.Of(12)),
            UncertaintyContribution.Resolution(Mm(0.05m))
        );
        StationReading At(decimal station) => new(Mm(station), whole.Around(Mm(4m)));

        var fit = WidthFit.Through([At(0m), At(100m)], Mm(100m))!;

        Assert.Equal(Mm(0.1396774m), ((MeasuredValue)fit.LeftEnd).Expanded.Value);
        // Two readings: both studies are one estimate on one degree, 0.1396774·√2.
        Assert.InRange(((MeasuredValue)fit.Tilt).Expanded.Value.Millimetres, 0.19753m, 0.19754m);
    }

    [Fact]
    public void Of_LinesOfOneCauseWithDifferentSizes_AddWithTheirSigns()
    {
        var large = new UncertaintyContribution(UncertaintySource.Reading, 0.005, default).CausedBy("heat");
        var small = new UncertaintyContribution(UncertaintySource.Reading, 0.002, default).CausedBy("heat");

        Assert.Equal(0.007, UncertaintyBudget.Of(large, small).CombinedMillimetres, 1e-15);
        Assert.Equal(0.003, UncertaintyBudget.Of(large, small.Times(-1)).CombinedMillimetres, 1e-15);
    }

    [Fact]
    public void Of_LinesOfOneCauseKnownDifferentlyWell_CountAsTheLeastKnownInAnyOrder()
    {
        // One error of 0.007: by G.4.1 alone it has the degrees of freedom of what is known least, 3.
        var well = new UncertaintyContribution(
            UncertaintySource.Reading,
            0.005,
            DegreesOfFreedom.Infinite
        ).CausedBy("heat");
        var little = new UncertaintyContribution(
            UncertaintySource.Reading,
            0.002,
            DegreesOfFreedom.Of(3)
        ).CausedBy("heat");

        Assert.Equal(3, UncertaintyBudget.Of(well, little).DegreesOfFreedom.Truncated);
        Assert.Equal(3, UncertaintyBudget.Of(little, well).DegreesOfFreedom.Truncated);
    }

    [Fact]
    public void Of_LinesOfOneCauseInAnyOrder_GivesTheSameBits()
    {
        // 1e8 - 1e8 + 1e-9 is 1e-9 or 0 in floating point, by the order in which it is added.
        var large = new UncertaintyContribution(UncertaintySource.Reading, 1e8, default).CausedBy("heat");
        var small = new UncertaintyContribution(UncertaintySource.Reading, 1e-9, default).CausedBy("heat");

        Assert.Equal(
            UncertaintyBudget.Of(large, large.Times(-1), small).CombinedMillimetres,
            UncertaintyBudget.Of(large, small, large.Times(-1)).CombinedMillimetres
        );
    }

    [Property(MaxTest = PropertyCases.Each)]
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

    /// <summary>
    /// Of what follows from several readings the rest is known as in the reading where it expands to the most: 13.97 on one degree,
    /// 2.65 on five.
    /// </summary>
    [Fact]
    public void WithRestOf_SeveralReadings_IsKnownAsInTheWorst()
    {
        static SharedError Knowing(double degrees) =>
            new SharedError(StandardUncertainty.From(Mm(0.001m)), "gauge").WithRest(
                UncertaintyBudget.Of(
                    UncertaintyContribution.Repeatability(Mm(0.002m), DegreesOfFreedom.Of(degrees), 1)
                )
            );
        var stated = new SharedError(StandardUncertainty.From(Mm(0.001m)), "gauge")
        {
            Rest = DegreesOfFreedom.Of(2),
        };

        Assert.Equal(DegreesOfFreedom.Of(1), stated.WithRestOf([Knowing(5), Knowing(1)]).Rest);
        Assert.Equal(DegreesOfFreedom.Of(1), stated.WithRestOf([Knowing(1), Knowing(5)]).Rest);
        Assert.Equal(DegreesOfFreedom.Of(2), stated.WithRestOf([Knowing(5), stated]).Rest);
    }

    /// <summary>
    /// A study of 0.010 on one degree beside 0.020 taken as known is on (0.0005)²/0.01⁴ = 25 degrees, where k is 2.1; but the study
    /// by itself comes to 0.1397, 6.2 times the whole, and 2.65 on five degrees is less.
    /// </summary>
    [Fact]
    public void WithRestOf_ARestOfWhichAPartComesToMore_CountsThatPart()
    {
        static SharedError With(params UncertaintyContribution[] rest) =>
            new SharedError(StandardUncertainty.From(Mm(0.001m)), "gauge").WithRest(
                UncertaintyBudget.Of([.. rest])
            );
        var mixed = With(
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
            UncertaintyContribution.Calibration(Mm(0.040m), 2m)
        );
        var plain = With(UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(5), 1));

        Assert.Equal("25", mixed.WithRestOf([plain, mixed]).Rest.ToString());
    }

    /// <summary>
    /// Two readings that have nothing but what one certificate, 0.010/3, leaves in both: their difference is known exactly, although
    /// each is told rounded up.
    /// </summary>
    [Fact]
    public void Tilt_OfReadingsThatShareAll_IsKnownExactly()
    {
        var certificate = UncertaintyBudget.Of(UncertaintyContribution.Calibration(Mm(0.010m), 3m));
        StationReading At(decimal station) =>
            new(Mm(station), certificate.Around(Mm(4m))) { Shared = certificate.SharedBy("gauge") };

        var tilt = (MeasuredValue)WidthFit.Through([At(0m), At(100m)], Mm(100m))!.Tilt;

        Assert.Equal(StandardUncertainty.Zero, tilt.Uncertainty);
    }

    /// <summary>One certificate, told by one reading to rest on three degrees: 3.306822175006·0.004 = 0.0132273, in either order.</summary>
    [Theory]
    [InlineData(0, 100)]
    [InlineData(100, 0)]
    public void Offset_OfReadingsThatTellWhatTheyShareKnownDifferently_CountsTheWorst(int little, int well)
    {
        var u = StandardUncertainty.From(Mm(0.004m));
        StationReading At(decimal station, DegreesOfFreedom known) =>
            new(Mm(station), new MeasuredValue(Mm(4m), u, known)) { Shared = new(u, "gauge", known) };

        var fit = WidthFit.Through(
            [At(little, DegreesOfFreedom.Of(3)), At(well, DegreesOfFreedom.Infinite)],
            Mm(100m)
        )!;

        Assert.Equal(Mm(0.0132273m), ((MeasuredValue)fit.Offset).Expanded.Value);
    }

    /// <summary>
    /// A study on one degree, and a reading of which only u and five degrees are told: no certificate of its own, so both are one
    /// estimate on the one degree, 13.967730199245·0.010·√2 = 0.1975335.
    /// </summary>
    [Fact]
    public void Tilt_OfAStudyAndAReadingOfWhichOnlyTheWholeIsTold_IsOneEstimate()
    {
        var study = UncertaintyBudget.Of(
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1)
        );
        var told = new MeasuredValue(Mm(4m), StandardUncertainty.From(Mm(0.010m)), DegreesOfFreedom.Of(5));

        var fit = WidthFit.Through([new(Mm(0m), study.Around(Mm(4m))), new(Mm(100m), told)], Mm(100m))!;

        Assert.InRange(((MeasuredValue)fit.Tilt).Expanded.Value.Millimetres, 0.1975335m, 0.1975337m);
    }

    /// <summary>
    /// One error of which a certificate states a half and a study the other is no certificate: with the study of the reading itself
    /// it counts as one estimate on one degree, 13.967730199245·√(0.010² + 0.020²) = 0.3123279.
    /// </summary>
    [Fact]
    public void At_AStationOfACauseCertifiedInPart_CountsItAsStudied()
    {
        UncertaintyContribution Half(UncertaintySource source) =>
            new UncertaintyContribution(source, 0.010, DegreesOfFreedom.Of(12)).CausedBy("jig");
        var whole = UncertaintyBudget.Of(
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
            Half(UncertaintySource.Calibration),
            Half(UncertaintySource.Reading)
        );
        StationReading At(decimal station) => new(Mm(station), whole.Around(Mm(4m)));

        var fit = WidthFit.Through([At(0m), At(100m)], Mm(100m))!;

        Assert.InRange(((MeasuredValue)fit.LeftEnd).Expanded.Value.Millimetres, 0.3123279m, 0.3123281m);
    }

    /// <summary>13.967730199245·0.010 over u = √(0.010² + 0.005²), rounded up to 0.0111804: the factor that is told, 12.493.</summary>
    [Fact]
    public void Expanded_WhereAPartComesToMore_TellsTheFactorOfTheWhole()
    {
        var expanded = UncertaintyBudget
            .Of(
                UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
                UncertaintyContribution.Calibration(Mm(0.010m), 2m)
            )
            .Around(Mm(1m))
            .Expanded;

        Assert.Equal(0.1396774m, expanded.Value.Millimetres);
        Assert.Equal(12.493m, Math.Round(expanded.CoverageFactor, 3));
    }
}
