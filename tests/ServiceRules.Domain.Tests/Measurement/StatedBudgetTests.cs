using FsCheck.Xunit;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>A budget as it is told beside a value: every line, and what U rests on.</summary>
public sealed class StatedBudgetTests
{
    // u = 0.010/2; 0.010/√12; 0.004.
    private static readonly UncertaintyBudget Own = UncertaintyBudget.Of(
        UncertaintyContribution.Resolution(Mm(0.010m)),
        UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Infinite, 1)
    );

    private static readonly SharedError Certificate = UncertaintyBudget
        .Of(UncertaintyContribution.Calibration(Mm(0.010m), 2m))
        .SharedBy("G-1");

    [Fact]
    public void Of_GaugeTakenAsKnown_TellsEachLineAndTheWhole()
    {
        var told = Told(
            UncertaintyContribution.Calibration(Mm(0.010m), 2m),
            UncertaintyContribution.ZeroCheck(Mm(0m), Mm(0m), Mm(0.0127m)),
            UncertaintyContribution.Resolution(Mm(0.010m)),
            UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Infinite, 1)
        );

        Assert.Equal(
            [
                Line(UncertaintySource.Calibration, 0.005m),
                Line(UncertaintySource.Resolution, 0.0028868m),
                Line(UncertaintySource.Repeatability, 0.004m),
            ],
            told.Contributions.AsEnumerable()
        );
        Assert.Equal(Mm(0.0070238m), told.Combined.Value);
        Assert.True(told.DegreesOfFreedom.IsInfinite);
        Assert.Equal(2m, told.CoverageFactor);
        Assert.Equal(Mm(0.0140476m), told.Expanded);
        Assert.Null(told.RestsOn);
    }

    [Fact]
    public void Of_LinesOfOneSource_TellsThemTogether() =>
        // √(0.003² + 0.004²).
        Assert.Equal(
            [Line(UncertaintySource.Temperature, 0.005m)],
            Told(
                new(UncertaintySource.Temperature, 0.003, DegreesOfFreedom.Infinite),
                new(UncertaintySource.Temperature, 0.004, DegreesOfFreedom.Infinite)
            )
                .Contributions.AsEnumerable()
        );

    [Fact]
    public void Of_TwoEstimatesOfOneSource_TellsEachWithItsDegrees() =>
        Assert.Equal(
            [
                Line(UncertaintySource.Repeatability, 0.003m, 4),
                Line(UncertaintySource.Repeatability, 0.004m, 9),
            ],
            Told(
                UncertaintyContribution.Repeatability(Mm(0.004m), DegreesOfFreedom.Of(9), 1),
                UncertaintyContribution.Repeatability(Mm(0.003m), DegreesOfFreedom.Of(4), 1)
            )
                .Contributions.AsEnumerable()
        );

    [Fact]
    public void Of_LittleKnownPartThatComesToMore_SaysWhichLinesItRestsOn()
    {
        // docs/uncertainty.md: s = 0.010 on one degree of freedom beside a certificate of u = 0.010: u 0.0141 on 4, k 2.87, and
        // ± 0.140 by the study alone, 13.967730199245 · 0.010.
        var told = Told(
            UncertaintyContribution.Calibration(Mm(0.020m), 2m),
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1)
        );

        Assert.Equal(
            [
                Line(UncertaintySource.Calibration, 0.010m) with
                {
                    IsCounted = false,
                },
                Line(UncertaintySource.Repeatability, 0.010m, 1),
            ],
            told.Contributions.AsEnumerable()
        );
        Assert.Equal(4m, told.DegreesOfFreedom.Stated);
        Assert.Equal(2.869309414629m, told.CoverageFactor);
        Assert.Equal(Mm(0.1396774m), told.Expanded);
        Assert.Equal(
            new StatedPart(StandardUncertainty.From(Mm(0.010m)), DegreesOfFreedom.Of(1), 13.967730199245m),
            told.RestsOn
        );
    }

    [Fact]
    public void Of_LittleKnownPartOfMany_RestsOnThatAlone()
    {
        // 0.004 on one degree alone is 13.967730199245 · 0.004; all three together 2.05057 · 0.0227157 = 0.0465800.
        var told = Told(
            UncertaintyContribution.Calibration(Mm(0.040m), 2m),
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(2), 1),
            new(UncertaintySource.Reading, 0.004, DegreesOfFreedom.Of(1))
        );

        Assert.Equal(Mm(0.0558710m), told.Expanded);
        Assert.Equal(
            UncertaintySource.Reading,
            Assert.Single(told.Contributions, line => line.IsCounted).Source
        );
        Assert.Equal(Mm(0.004m), told.RestsOn!.Combined.Value);
    }

    [Fact]
    public void Of_TwoAsLittleKnown_RestsOnTheLarger()
    {
        // 0.030 on one degree alone is 13.967730199245 · 0.030; both are 0.0316228 on 100/82, where k is below 10.6.
        var told = Told(
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1),
            new(UncertaintySource.Reading, 0.030, DegreesOfFreedom.Of(1))
        );

        Assert.Equal(Mm(0.4190320m), told.Expanded);
        Assert.Equal(
            new StatedPart(StandardUncertainty.From(Mm(0.030m)), DegreesOfFreedom.Of(1), 13.967730199245m),
            told.RestsOn
        );
        Assert.Equal(
            UncertaintySource.Reading,
            Assert.Single(told.Contributions, line => line.IsCounted).Source
        );
    }

    [Fact]
    public void Of_AsManyLittleKnownErrorsAsAreTried_RestsOnThePartThatComesToTheMost()
    {
        // Nine of 0.0001 raise u by 0.3 % and lower k by more: 0.004 on one degree counts alone.
        var told = Told([
            new(UncertaintySource.Reading, 0.004, DegreesOfFreedom.Of(1)),
            .. Enumerable.Repeat(
                new UncertaintyContribution(UncertaintySource.Repeatability, 0.0001, DegreesOfFreedom.Of(9)),
                9
            ),
        ]);

        Assert.Equal(10, told.Contributions.Length);
        Assert.Equal(Mm(0.0558710m), told.Expanded);
        Assert.Equal(
            UncertaintySource.Reading,
            Assert.Single(told.Contributions, line => line.IsCounted).Source
        );
        Assert.Equal(
            new StatedPart(StandardUncertainty.From(Mm(0.004m)), DegreesOfFreedom.Of(1), 13.967730199245m),
            told.RestsOn
        );
    }

    /// <summary>U by the lines that count alone; where it rests on a part, that is more than all lines come to.</summary>
    [Property(MaxTest = PropertyCases.Each)]
    public void Of_AnyErrors_IsReckonedAgainFromTheLinesThatCount(byte one, byte two, byte five, byte known)
    {
        var told = Told(
            new(UncertaintySource.Repeatability, one / 10_000.0, DegreesOfFreedom.Of(1)),
            new(UncertaintySource.Repeatability, two / 10_000.0, DegreesOfFreedom.Of(2)),
            new(UncertaintySource.Reading, five / 10_000.0, DegreesOfFreedom.Of(5)),
            new(UncertaintySource.Resolution, known / 10_000.0, DegreesOfFreedom.Infinite)
        );

        Assert.Equal(U([.. told.Contributions.Where(line => line.IsCounted)]), Us(told), 3e-7);
        Assert.InRange(U([.. told.Contributions]), 0, Us(told) + 3e-7);
        Assert.Equal(told.RestsOn is null, told.Contributions.All(line => line.IsCounted));

        static double Us(StatedBudget budget) => (double)budget.Expanded.Millimetres;

        static double U(List<StatedContribution> lines)
        {
            var squares = lines.ConvertAll(line => Math.Pow((double)line.Uncertainty.Value.Millimetres, 2));
            var u2 = squares.Sum();
            var reliability = lines
                .Zip(squares, (line, square) => square * square * line.DegreesOfFreedom.Reciprocal)
                .Sum();
            var degrees = reliability > 0 ? u2 * u2 / reliability : double.PositiveInfinity;
            return Math.Sqrt(u2) * (double)CoverageFactor.Between(DegreesOfFreedom.Of(degrees));
        }
    }

    [Fact]
    public void Of_LittleKnownPartThatTheRestOutweighs_RestsOnAll()
    {
        // 2.0085207826 · 0.0374165739 = 0.0751519662.
        var told = Told(
            UncertaintyContribution.Calibration(Mm(0.060m), 2m),
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(2), 1),
            new(UncertaintySource.Reading, 0.02, DegreesOfFreedom.Of(100))
        );

        Assert.Equal(Mm(0.0751520m), told.Expanded);
        Assert.Null(told.RestsOn);
        Assert.All(told.Contributions, line => Assert.True(line.IsCounted));
    }

    [Fact]
    public void Of_MoreLittleKnownErrorsThanAreTried_RestsOnTheLeastDegrees()
    {
        var told = Told([
            .. Enumerable
                .Range(1, 11)
                .Select(i => new UncertaintyContribution(
                    UncertaintySource.Reading,
                    0.001 * i,
                    DegreesOfFreedom.Of(4 + i)
                )),
        ]);

        Assert.Equal(5m, told.RestsOn!.DegreesOfFreedom.Stated);
        Assert.Equal(2.648649430703m, told.RestsOn.CoverageFactor);
        Assert.All(told.Contributions, line => Assert.True(line.IsCounted));
    }

    [Fact]
    public void Of_ValueMovedSince_TellsTheMovement() =>
        // 0.010/√3.
        Assert.Contains(
            Line(UncertaintySource.Movement, 0.0057736m),
            StatedBudget
                .Of((MeasuredValue)Own.Around(Mm(1m)).ShiftedBy(Length.Zero, Mm(0.010m)))
                .Contributions
        );

    [Fact]
    public void Of_EndByTheLine_KeepsWhatTheGaugeSharesAndWidensTheRest()
    {
        // Stations 100 and 400 of 500: weights at the left end 4/3 and -1/3, √(16/9 + 1/9) = 1.3743685, of what is left of u as it is
        // told (0.0070238, rounded up) beside the certificate.
        var told = StatedBudget.Of((MeasuredValue)Fit().LeftEnd);

        Assert.Equal(
            [
                Line(UncertaintySource.Calibration, 0.005m),
                Line(UncertaintySource.Resolution, 0.0039675m),
                Line(UncertaintySource.Repeatability, 0.0054976m),
            ],
            told.Contributions.AsEnumerable()
        );
    }

    [Fact]
    public void Of_DifferenceOfOneGauge_LeavesItsCertificateOut() =>
        Assert.DoesNotContain(
            StatedBudget.Of((MeasuredValue)Fit().Tilt).Contributions,
            line => line.Source is UncertaintySource.Calibration
        );

    [Fact]
    public void Of_ReadingsOffTheLine_TellTheScatter()
    {
        var fit = WidthFit.Through(
            [Reading(100m, 1.00m), Reading(250m, 1.10m), Reading(400m, 1.00m)],
            Mm(500m)
        )!;

        // Off the line by -1/30, 2/30, -1/30 on one degree: s² = 0.0066667, of which 0.0049329² is their own. Weights at the left end
        // 7/6, 1/3 and -1/2: √(0.0066423 · 1.7222222).
        Assert.InRange(
            Assert
                .Single(
                    StatedBudget.Of((MeasuredValue)fit.LeftEnd).Contributions,
                    line => line.Source is UncertaintySource.Scatter
                )
                .Uncertainty.Value.Millimetres,
            0.106955m,
            0.106957m
        );
    }

    [Fact]
    public void Of_ValueOfWhichOnlyUIsKnown_TellsOneLine()
    {
        var told = StatedBudget.Of(new MeasuredValue(Mm(1m), StandardUncertainty.From(Mm(0.003m))));

        Assert.Equal([Line(UncertaintySource.Reading, 0.003m)], told.Contributions.AsEnumerable());
    }

    [Fact]
    public void Of_ExactValue_TellsNoLine()
    {
        var told = StatedBudget.Of(MeasuredValue.Exact(Mm(1m)));

        Assert.Empty(told.Contributions);
        Assert.Equal(Length.Zero, told.Expanded);
    }

    [Fact]
    public void Equals_SameLines_IsTheSame()
    {
        var study = UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1);

        Assert.Equal(Told(study), Told(study));
        Assert.Equal(Told(study).GetHashCode(), Told(study).GetHashCode());
        Assert.NotEqual(Told(study), Told(study) with { Contributions = [] });
        Assert.NotEqual(Told(study), Told(study) with { CoverageFactor = 2m });
        Assert.NotEqual(Told(study), Told(study) with { Expanded = Mm(1m) });
        Assert.NotEqual(Told(study), Told(study) with { DegreesOfFreedom = default });
        Assert.NotEqual(Told(study), Told(study) with { Combined = default });
        Assert.NotEqual(Told(study), Told(study) with { RestsOn = new(default, default, 2m) });
    }

    [Fact]
    public void Errors_OfABudget_ComeToItsUAndItsExpandedUncertainty()
    {
        var told = Told(
            UncertaintyContribution.Calibration(Mm(0.020m), 2m),
            UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1)
        );

        Assert.Equal(told.Combined, told.Errors.Uncertainty);
        Assert.Equal(told.Expanded, told.Errors.Expanded.Value);
    }

    private static WidthFit Fit() =>
        WidthFit.Through([Reading(100m, 1.00m), Reading(400m, 1.01m)], Mm(500m))!;

    private static StationReading Reading(decimal station, decimal value) =>
        new(
            Mm(station),
            UncertaintyBudget
                .Of([.. Own.Contributions, UncertaintyContribution.Calibration(Mm(0.010m), 2m)])
                .Around(Mm(value))
        )
        {
            Shared = Certificate.WithRest(Own),
        };

    private static StatedBudget Told(params UncertaintyContribution[] lines) =>
        StatedBudget.Of(UncertaintyBudget.Of([.. lines]).Around(Mm(1m)));

    private static StatedContribution Line(UncertaintySource source, decimal u, double? degrees = null) =>
        new(
            source,
            StandardUncertainty.From(Mm(u)),
            degrees is { } number ? DegreesOfFreedom.Of(number) : DegreesOfFreedom.Infinite
        );
}
