using System.Globalization;
using MathNet.Numerics.Distributions;
using ServiceRules.Domain.Measurement;
using ServiceRules.TestKit;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>Outside values: JCGM 100:2008, Table G.2, printed and recomputed to 12 decimals.</summary>
public sealed class CoverageFactorTests
{
    [Fact]
    public void For_EveryTabulatedRow_AgreesWithTheReferenceTable()
    {
        var rows = ReferenceFiles.ReadRows("metrology", "gum-t-factors.csv");
        var header = rows[0].Split(',').ToList();
        var computed = header.IndexOf("p95.45_computed");
        var printed = header.IndexOf("p95.45_printed");
        foreach (var cells in rows.Skip(1).Select(row => row.Split(',')))
        {
            var degreesOfFreedom =
                cells[0] == "inf"
                    ? DegreesOfFreedom.Infinite
                    : DegreesOfFreedom.Of(int.Parse(cells[0], CultureInfo.InvariantCulture));
            var factor = CoverageFactor.For(degreesOfFreedom);
            Assert.Equal(decimal.Parse(cells[computed], CultureInfo.InvariantCulture), factor, 9);
            if (cells[printed].Length > 0)
            {
                var half = cells[printed].Length > 4 && cells[0] is "100" or "inf" ? 0.0005m : 0.005m;
                var print = decimal.Parse(cells[printed], CultureInfo.InvariantCulture);
                Assert.InRange(factor, print - half, print + half);
            }
        }
    }

    [Fact]
    public void For_EveryWholeNumber_AgreesWithAnIndependentQuantile()
    {
        var level = 1 - ((1 - Normal.CDF(0, 1, 2)) * 2);
        for (var n = 1; n <= 100; n++)
        {
            var quantile = StudentT.InvCDF(0, 1, n, (1 + level) / 2);
            Assert.Equal(quantile, (double)CoverageFactor.For(DegreesOfFreedom.Of(n)), 1e-7);
        }
    }

    public static TheoryData<string> Levels()
    {
        var names = new TheoryData<string>();
        foreach (var level in CoverageLevel.All)
        {
            names.Add(level.Name);
        }

        return names;
    }

    [Theory]
    [MemberData(nameof(Levels))]
    public void At_EveryLevelAndRow_AgreesWithTheReferenceTable(string name)
    {
        var level = CoverageLevel.All.Single(one => one.Name == name);
        var rows = ReferenceFiles.ReadRows("metrology", "gum-t-factors.csv");
        var header = rows[0].Split(',').ToList();
        var computed = header.IndexOf(
            $"p{name.Replace(" %", string.Empty, StringComparison.Ordinal)}_computed"
        );
        Assert.True(computed > 0);
        foreach (var cells in rows.Skip(1).Select(row => row.Split(',')))
        {
            var factor = CoverageFactor.At(
                level,
                cells[0] == "inf"
                    ? DegreesOfFreedom.Infinite
                    : DegreesOfFreedom.Of(int.Parse(cells[0], CultureInfo.InvariantCulture))
            );
            ReferenceNumber.Near(
                decimal.Parse(cells[computed], CultureInfo.InvariantCulture),
                factor,
                0.000000001m
            );
        }
    }

    [Fact]
    public void At_TheVerdictsLevel_IsTheTableEvenWhereAQuantileWouldDiffer()
    {
        Assert.Equal(6, CoverageLevel.All.Count);
        Assert.Equal("95.45 %", CoverageLevel.TwoSigma.ToString());
        // Between 100 and infinity the table stays at 100; a computed level goes on falling.
        Assert.Equal(
            CoverageFactor.For(DegreesOfFreedom.Of(100)),
            CoverageFactor.At(CoverageLevel.TwoSigma, DegreesOfFreedom.Of(400))
        );
        Assert.True(
            CoverageFactor.At(CoverageLevel.NinetyFive, DegreesOfFreedom.Of(400))
                < CoverageFactor.At(CoverageLevel.NinetyFive, DegreesOfFreedom.Of(100))
        );
    }

    [Theory]
    [InlineData(101)]
    [InlineData(5000.5)]
    public void For_BeyondTheTable_StaysOnTheWideSide(double degreesOfFreedom) =>
        Assert.Equal(2.025309127903m, CoverageFactor.For(DegreesOfFreedom.Of(degreesOfFreedom)));

    [Theory]
    [InlineData(18.9987, 18)]
    [InlineData(39.9999999999, 40)]
    [InlineData(1, 1)]
    public void Truncated_OfAFraction_IsTheNextLowerWholeNumber(double value, int expected) =>
        Assert.Equal(expected, DegreesOfFreedom.Of(value).Truncated);

    [Theory]
    [InlineData(0.99)]
    [InlineData(double.NaN)]
    public void Of_BelowOne_IsRefused(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DegreesOfFreedom.Of(value));
}
