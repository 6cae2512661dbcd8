using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>More uncertainty never makes U smaller, which plain Welch-Satterthwaite does not give.</summary>
public sealed class IndependentErrorsTests
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
    public void ShiftedBy_AMoveKnownLess_NeverGetsLessExpanded(
        (ushort Size, byte Degrees)[] lines,
        ushort one,
        ushort two
    )
    {
        var read = UncertaintyBudget
            .Of([Line(Size(one), 5), .. lines.Take(4).Select(line => Line(Size(line.Size), line.Degrees))])
            .Around(Mm(4m));
        var less = Mm((decimal)Math.Min(Size(one), Size(two)));
        var more = Mm((decimal)Math.Max(Size(one), Size(two)));

        Assert.True(read.Expanded.Value <= U(read.ShiftedBy(Length.Zero, less)));
        Assert.True(U(read.ShiftedBy(Length.Zero, less)) <= U(read.ShiftedBy(Length.Zero, more)));
    }

    /// <summary>By one gauge: what is shared, what is its own, and one more of either, at an end, over the width, in a difference.</summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Through_ReadingsOfAGaugeWithOneMoreError_NeverGetLessExpanded(
        (ushort Size, byte Degrees)[] own,
        (ushort Size, byte Degrees)[] shared,
        ushort more,
        byte third,
        ushort drawn
    )
    {
        var inset = 1m + (drawn * 40503 % 200);
        UncertaintyContribution[] alone =
        [
            Line(0.003, 5),
            .. own.Take(3).Select(l => Line(Size(l.Size), l.Degrees)),
        ];
        UncertaintyContribution[] common = [.. shared.Take(3).Select(l => Line(Size(l.Size), l.Degrees))];
        var growing = Line(Size(more), third);

        var before = Fit(alone, common);

        foreach (var after in new[] { Fit([.. alone, growing], common), Fit(alone, [.. common, growing]) })
        {
            NotLess(before.LeftEnd, after.LeftEnd);
            NotLess(before.Offset, after.Offset);
            NotLess(before.Tilt, after.Tilt);
        }

        // An end beyond the stations is never known better than a station.
        NotLess(before.Readings[0].Knowledge, before.LeftEnd);

        WidthFit Fit(UncertaintyContribution[] itsOwn, UncertaintyContribution[] inCommon)
        {
            var station = UncertaintyBudget.Of([.. itsOwn, .. inCommon]).Around(Mm(4m));
            var ofGauge = UncertaintyBudget
                .Of([.. inCommon])
                .SharedBy("gauge")
                .WithRest(UncertaintyBudget.Of([.. itsOwn]));
            return WidthFit.Through(
                [
                    .. new[] { inset, 499m }.Select(at => new StationReading(Mm(at), station)
                    {
                        Shared = ofGauge,
                    }),
                ],
                Mm(500m)
            )!;
        }
    }

    /// <summary>Errors of any sizes up to these come to no more than those that are tried.</summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Expanded_AnyErrorsOfAtMostTheseSizes_NeverComeToMore(
        (ushort Size, byte Degrees, byte Share)[] lines
    )
    {
        var whole = Expanded([.. lines.Take(6).Select(line => Line(Size(line.Size), line.Degrees))]);
        var part = UncertaintyBudget.Of([
            .. lines.Take(6).Select(line => Line(Size(line.Size) * (line.Share / 255.0), line.Degrees)),
        ]);

        var plain = part.CombinedMillimetres * (double)CoverageFactor.Between(part.DegreesOfFreedom);
        Assert.True(plain <= (double)whole.Millimetres * (1 + 1e-12), $"{plain} above {whole}");
    }

    [Fact]
    public void Expanded_MoreErrorsThanAreSelectedFrom_CountsTheLeastDegrees()
    {
        // Eleven on 2 to 12 degrees, 0.001 each: root of 11 times 0.001 times 4.52653668743 = 0.01501282...
        var lines = Enumerable
            .Range(2, 11)
            .Select(known => new UncertaintyContribution(
                UncertaintySource.Reading,
                0.001,
                DegreesOfFreedom.Of(known)
            ));

        Assert.Equal(Mm(0.0150129m), Expanded([.. lines]));
    }

    /// <summary>
    /// Ten on 12 degrees, 0.001 each, are on 120 together: k = 2 + 0.025309127903·(1/120 - 1e-6)/(1/100 - 1e-6) =
    /// 2.0210905180582, times 0.001·√10 = 0.0063912494. One more of nothing, known worst, makes none of them known worse.
    /// </summary>
    [Fact]
    public void Expanded_AsManyErrorsAsAreSelectedFromAndOneOfNothing_CountsTheDegreesOfAll()
    {
        var ten = Enumerable.Repeat(
            new UncertaintyContribution(UncertaintySource.Reading, 0.001, DegreesOfFreedom.Of(12)),
            10
        );
        var nothing = new UncertaintyContribution(UncertaintySource.Reading, 0, DegreesOfFreedom.Of(1));

        Assert.Equal(Mm(0.0063913m), Expanded([.. ten, nothing]));
    }

    /// <summary>
    /// 0.00100001 is told as 0.0010001, and twice that is what is told beside it, not 0.0020001. What follows counts what is told:
    /// √2·0.0010001 = 0.00141436, where √2·0.00100001 is 0.00141423.
    /// </summary>
    [Fact]
    public void Expanded_ErrorsTakenAsKnown_IsTwiceWhatIsTold()
    {
        var budget = UncertaintyBudget.Of(
            new UncertaintyContribution(UncertaintySource.Reading, 0.00100001, DegreesOfFreedom.Infinite)
        );
        StationReading At(decimal station) => new(Mm(station), budget.Around(Mm(4m)));

        Assert.Equal(Mm(0.0010001m), budget.Combined.Value);
        Assert.Equal(Mm(0.0020002m), budget.Errors.Expanded.Value);
        Assert.Equal(
            Mm(0.0014144m),
            ((MeasuredValue)WidthFit.Through([At(0m), At(100m)], Mm(100m))!.Tilt).Uncertainty.Value
        );
    }

    [Fact]
    public void ToString_OfErrors_TellsSizeAndDegrees() =>
        Assert.Equal(
            "0.004 mm on 5",
            UncertaintyBudget
                .Of(UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Of(5), 1))
                .Errors.ToString()
        );

    [Fact]
    public void Equals_ValuesThatDifferInOneThing_AreNotTheSame()
    {
        var value = new MeasuredValue(Mm(4m), StandardUncertainty.From(Mm(0.001m)));

        Assert.Equal(value, value with { });
        Assert.NotEqual(value, value with { Value = Mm(5m) });
        Assert.NotEqual(value, value with { Uncertainty = StandardUncertainty.From(Mm(0.002m)) });
        Assert.NotEqual(value, value with { DegreesOfFreedom = DegreesOfFreedom.Of(5) });
    }

    [Fact]
    public void Around_TheSameErrorsInAnotherOrder_IsTheSameValue()
    {
        var (one, two) = (Line(0.003, 5), Line(0.002, 9));

        Assert.Equal(
            UncertaintyBudget.Of(one, two).Around(Mm(4m)),
            UncertaintyBudget.Of(two, one).Around(Mm(4m))
        );
        Assert.NotEqual(
            UncertaintyBudget.Of(one, two).Around(Mm(4m)),
            UncertaintyBudget.Of(one, Line(0.002, 13)).Around(Mm(4m))
        );
    }

    private static void NotLess(Knowledge less, Knowledge more) =>
        Assert.True(U(less) <= U(more), $"{U(less)} fell to {U(more)}");

    private static Length U(Knowledge known) => ((MeasuredValue)known).Expanded.Value;

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
