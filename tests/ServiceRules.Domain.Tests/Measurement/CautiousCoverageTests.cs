using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>More uncertainty never makes U smaller, which plain Welch-Satterthwaite does not give.</summary>
public sealed class CautiousCoverageTests
{
    [Fact]
    public void Around_WorseCertificateBesideAStudyOfTwoReadings_ProvesNoMore()
    {
        // s = 0.010 on one degree of freedom alone is ± 13.967730199245 · 0.010, whatever stands beside it.
        var study = UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1);

        var alone = Expanded(study);
        var better = Expanded(study, UncertaintyContribution.Calibration(Mm(0.010m), 2m));
        var worse = Expanded(study, UncertaintyContribution.Calibration(Mm(0.020m), 2m));
        // Taken as known, u = 0.1 leaves so little to the study that it counts itself: 2 · √(0.1² + 0.01²) and a little.
        var worst = Expanded(study, UncertaintyContribution.Calibration(Mm(0.200m), 2m));

        Assert.Equal(Mm(0.1396774m), alone);
        Assert.Equal(alone, better);
        Assert.Equal(alone, worse);
        Assert.InRange(worst.Millimetres, 0.2009m, 0.2011m);
    }

    [Fact]
    public void Around_OneErrorOnWholeDegrees_IsTheTable()
    {
        // 2.648649430703 · 0.004 = 0.010594597722812, rounded up.
        Assert.Equal(
            Mm(0.0105946m),
            Expanded(UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Of(5), 1))
        );
    }

    [Theory]
    // Along 1/ν: 13.967730199245 - (13.967730199245 - 4.526536687430)·2·(1.5 - 1)/1.5.
    [InlineData(1.5, 7.6736011913683)]
    // 2.869309414629 of 4 and 2.648649430703 of 5 in the middle of their 1/ν, at ν = 40/9.
    [InlineData(4.4444444444444446, 2.758979422661)]
    // 2 + 0.025309127903·(1/200 - 1e-6)/(1/100 - 1e-6).
    [InlineData(200, 2.012653298293)]
    [InlineData(100, 2.025309127903)]
    [InlineData(2_000_000, 2)]
    public void Between_Degrees_IsTheChordAlongTheReciprocal(double degrees, double expected) =>
        Assert.Equal(expected, (double)CoverageFactor.Between(DegreesOfFreedom.Of(degrees)), 1e-9);

    [Property(MaxTest = PropertyCases.Each)]
    public void Between_AnyDegrees_IsNeverNarrowerThanTheQuantile(ushort thousandths, byte decades)
    {
        var degrees = 1 + (thousandths / 1000.0 * Math.Pow(10, decades % 4));

        var exact = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, degrees, 0.977249868051821);

        Assert.InRange((double)CoverageFactor.Between(DegreesOfFreedom.Of(degrees)) - exact, -3e-6, 2);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Around_AnyErrorGrown_NeverGetsLessExpanded(
        (ushort Size, byte Degrees)[] lines,
        ushort more,
        byte which
    )
    {
        if (lines.Length == 0)
        {
            return;
        }

        var grown = which % lines.Length;
        UncertaintyContribution[] before = [.. lines.Select(line => Line(Size(line.Size), line.Degrees))];
        UncertaintyContribution[] after =
        [
            .. lines.Select((line, i) => Line(Size(line.Size) + (i == grown ? Size(more) : 0), line.Degrees)),
        ];

        Assert.True(Expanded(before) <= Expanded(after), $"{Expanded(before)} fell to {Expanded(after)}");
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Around_AnErrorTakenAsKnownAdded_NeverGetsLessExpanded(
        ushort size,
        byte degrees,
        ushort one,
        ushort two
    )
    {
        var study = Line(Size(size), degrees);
        var less = Math.Min(Size(one), Size(two));
        var more = Math.Max(Size(one), Size(two));

        Assert.True(Expanded(study, Line(less, 0)) <= Expanded(study, Line(more, 0)));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Around_UncertaintiesOfUncertainties_NeverGetLessExpanded(
        (ushort Size, byte Degrees)[] own,
        (ushort Size, byte Degrees)[] shared,
        ushort more,
        byte third
    )
    {
        var growing = Line(Size(more), third);

        var before = Together(own, shared, Line(0, third));
        var after = Together(own, shared, growing);

        Assert.True(before <= after, $"{before} fell to {after}");
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void LeftEnd_ByALineFromStationsInside_IsNeverLessExpandedThanAStation(
        (ushort Size, byte Degrees)[] own,
        (ushort Size, byte Degrees)[] shared,
        ushort drawn
    )
    {
        var inset = 1m + (drawn * 40503 % 200);
        UncertaintyContribution[] alone = [.. own.Take(3).Select(l => Line(Size(l.Size), l.Degrees))];
        UncertaintyContribution[] together = [.. shared.Take(3).Select(l => Line(Size(l.Size), l.Degrees))];
        var rest = UncertaintyBudget.Of([.. alone]);
        var common = UncertaintyBudget.Of([.. together]);
        var station = UncertaintyBudget.Of([.. alone, .. together]).Around(Mm(4m));
        var fit = WidthFit.Through(
            [
                .. new[] { inset, 499m }.Select(at => new StationReading(Mm(at), station)
                {
                    Shared = new SharedError(common.Combined, "gauge", common.CautiousDegreesOfFreedom)
                    {
                        Rest = rest.CautiousDegreesOfFreedom,
                    },
                }),
            ],
            Mm(500m)
        )!;

        // Standard uncertainties are kept to 0.0001 µm, and the own part is what the whole has beyond the shared.
        var least = station.Expanded.Value.Millimetres * 0.999m - 0.00001m;
        Assert.True(((MeasuredValue)fit.LeftEnd).Expanded.Value.Millimetres >= least);
        Assert.True(((MeasuredValue)fit.RightEnd).Expanded.Value.Millimetres >= least);
    }

    private static Length Together(
        (ushort Size, byte Degrees)[] own,
        (ushort Size, byte Degrees)[] shared,
        UncertaintyContribution growing
    ) =>
        Expanded(
            AsOne(UncertaintyBudget.Of([.. own.Take(3).Select(l => Line(Size(l.Size), l.Degrees)), growing])),
            AsOne(UncertaintyBudget.Of([.. shared.Take(3).Select(l => Line(Size(l.Size), l.Degrees))]))
        );

    private static UncertaintyContribution AsOne(UncertaintyBudget budget) =>
        new(UncertaintySource.Reading, budget.Combined.Millimetres, budget.CautiousDegreesOfFreedom);

    private static Length Expanded(params UncertaintyContribution[] lines) =>
        UncertaintyBudget.Of([.. lines]).Around(Length.Zero).Expanded.Value;

    // From 0.1 µm to some 6 mm, as many small as large; small draws are spread, since most draws are small.
    private static double Size(ushort drawn) => 0.0001 * Math.Pow(10, drawn * 40503 % 4096 / 850.0);

    // One in four is taken as known, the others from 1 to 13.
    private static UncertaintyContribution Line(double size, byte degrees) =>
        new(
            UncertaintySource.Reading,
            size,
            degrees % 4 == 0 ? DegreesOfFreedom.Infinite : DegreesOfFreedom.Of(1 + (degrees / 4 % 13))
        );
}
