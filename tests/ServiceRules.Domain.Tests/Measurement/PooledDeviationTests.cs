using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.TestKit;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>Outside values: NIST/SEMATECH e-Handbook, 2.4.4.1 and 2.6.1 (data set MPC61). Ohm centimetres there.</summary>
public sealed class PooledDeviationTests
{
    private static JsonElement Handbook { get; } =
        ReferenceCases.In("metrology", "nist-handbook-spc.json", "cases").Named("nist-2.4.4.1-repeatability");

    private static IReadOnlyList<JsonElement> Pooled { get; } =
        ReferenceCases.In("metrology", "nist-mpc61-pooled.json", "rows");

    [Fact]
    public void Of_HandbookStudies_GivesThePrintedDeviationOnSixtyDegreesOfFreedom()
    {
        var pooled = PooledDeviation.Of([
            .. Handbook
                .GetProperty("stddevs_level1")
                .EnumerateArray()
                .Select(s => (Mm(s.GetDecimal()), Handbook.GetProperty("df_each").GetInt32())),
        ]);

        Assert.Equal(60, pooled.DegreesOfFreedom.Truncated);
        Near(
            Handbook.GetProperty("computed").GetProperty("s1_pooled").GetDecimal(),
            pooled.StandardDeviation.Millimetres,
            1e-9m
        );
        Near(
            Handbook.GetProperty("printed").GetProperty("s1_pooled").GetDecimal(),
            pooled.StandardDeviation.Millimetres,
            5e-6m
        );
    }

    [Fact]
    public void Of_EveryProbeAndRunOfTheGaugeStudy_GivesItsPooledDeviation()
    {
        var rows = ReferenceFiles.ReadRows("metrology", "nist-mpc61-gauge-study.csv");
        var header = rows[0].Split(',').ToList();
        var (run, probe, deviation) = (
            header.IndexOf("run"),
            header.IndexOf("probe"),
            header.IndexOf("stddev")
        );
        Assert.Equal(10, Pooled.Count);
        foreach (var expected in Pooled)
        {
            ImmutableArray<(Length, int)> studies =
            [
                .. rows.Skip(1)
                    .Select(row => row.Split(','))
                    .Where(cells =>
                        cells[probe] == expected.GetProperty("probe").GetString()
                        && cells[run]
                            == expected.GetProperty("run").GetInt32().ToString(CultureInfo.InvariantCulture)
                    )
                    .Select(cells => (Mm(decimal.Parse(cells[deviation], CultureInfo.InvariantCulture)), 5)),
            ];

            var pooled = PooledDeviation.Of(studies);

            Assert.Equal(expected.GetProperty("groups").GetInt32(), studies.Length);
            Assert.Equal(expected.GetProperty("df").GetInt32(), pooled.DegreesOfFreedom.Truncated);
            Near(
                expected.GetProperty("pooled_s1").GetDecimal(),
                pooled.StandardDeviation.Millimetres,
                0.0000000000005m
            );
        }
    }

    [Fact]
    public void Of_NothingOrAStudyOfOneReading_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => PooledDeviation.Of());
        var refused = Assert.Throws<ArgumentException>(() =>
            PooledDeviation.Of((Mm(0.004m), 5), (Mm(0.004m), 0))
        );
        Assert.StartsWith(
            "accepted is one study or more, each on one degree of freedom or more",
            refused.Message,
            StringComparison.Ordinal
        );
        Assert.Equal(Mm(0.004m), PooledDeviation.Of((Mm(0.004m), 1)).StandardDeviation);
    }
}
