using System.Text.Json;
using MathNet.Numerics.Distributions;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Engine;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Tests.Assessing;

/// <summary>
/// Whoever reads an assessment reckons each U again from what it prints and nothing else: the root of the sum of squares,
/// Welch and Satterthwaite's degrees of freedom, Student's t out of a library, k times u.
/// </summary>
public sealed class BudgetRecomputedTests
{
    // 2Φ(2) - 1 = 95.45 %, of which half of the rest lies above.
    private const double Upper = 0.977249868051821;

    private const string Digest = "sha256:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

    // Each printed figure is rounded up to 0.0000001 mm; k of one degree of freedom is 14.
    private const double Quantum = 1e-7;

    [Fact]
    public void Assess_DemoRecords_EveryExpandedUncertaintyFollowsFromItsBudget()
    {
        var budgets = DemoSeasons.Jobs.Take(200).SelectMany(job => Budgets(job.Record)).ToList();

        Assert.True(budgets.Count > 1000, $"only {budgets.Count} budgets were compared");
        Assert.All(budgets, one => IsReckonedAgain(one.Budget, one.Uncertainty));
    }

    [Fact]
    public void Assess_GaugesWithStudiesOfFewReadings_EveryExpandedUncertaintyFollowsFromItsBudget()
    {
        var studied = DemoSeasons
            .Jobs.Take(60)
            .SelectMany((job, at) => Budgets(WithStudies(job.Record, 1 + (at % 12))))
            .ToList();

        Assert.Contains(studied, one => one.Budget.TryGetProperty("restsOn", out _));
        Assert.Contains(
            studied,
            one =>
                one.Budget.TryGetProperty("degreesOfFreedom", out _)
                && !one.Budget.TryGetProperty("restsOn", out _)
        );
        Assert.All(studied, one => IsReckonedAgain(one.Budget, one.Uncertainty));
    }

    private static void IsReckonedAgain(JsonElement budget, string uncertainty)
    {
        var lines = budget
            .GetProperty("contributions")
            .EnumerateArray()
            .Select(line => new Line(
                Millimetres(line.GetProperty("uncertainty")),
                line.TryGetProperty("degreesOfFreedom", out var degrees) ? degrees.GetDouble() : null,
                !line.TryGetProperty("counted", out var counted) || counted.GetBoolean()
            ))
            .ToList();
        Assert.Equal(uncertainty, budget.GetProperty("expanded").GetString());
        Assert.Equal("95.45 %", budget.GetProperty("level").GetString());
        Holds(budget, lines);
        var counted = lines.FindAll(line => line.IsCounted);
        if (budget.TryGetProperty("restsOn", out var part))
        {
            Holds(part, counted);
        }
        else
        {
            Assert.Equal(lines, counted);
        }

        var expanded = Millimetres(budget.GetProperty("expanded"));
        var (u, k) = Reckoned(counted);
        Assert.Equal(k * u, expanded, (20 * Quantum) + (k * u * 1e-4));
    }

    /// <summary>u, ν and k as printed are those of the lines.</summary>
    private static void Holds(JsonElement printed, List<Line> lines)
    {
        var (u, k) = Reckoned(lines);
        Assert.Equal(u, Millimetres(printed.GetProperty("combined")), 5 * Quantum);
        var factor = printed.GetProperty("coverageFactor").GetDouble();
        Assert.Equal(1, factor / k, 3e-4);
    }

    private static (double U, double K) Reckoned(List<Line> lines)
    {
        var variance = lines.Sum(line => line.U * line.U);
        var reliability = lines.Sum(line => line.Degrees is { } finite ? Math.Pow(line.U, 4) / finite : 0);
        return (
            Math.Sqrt(variance),
            reliability == 0 ? 2 : Factor(Math.Min(1e6, Math.Max(1, variance * variance / reliability)))
        );
    }

    /// <summary>Along 1/ν between the quantiles of two whole degrees of freedom; beyond 100 from there to a million, where it is 2.</summary>
    private static double Factor(double degrees)
    {
        if (degrees >= 100)
        {
            return 2 + ((Quantile(100) - 2) * ((1 / degrees) - 1e-6) / (0.01 - 1e-6));
        }

        var below = Math.Floor(degrees);
        var share = ((1 / below) - (1 / degrees)) / ((1 / below) - (1 / (below + 1)));
        return Quantile(below) - (share * (Quantile(below) - Quantile(below + 1)));
    }

    private static double Quantile(double degrees) => StudentT.InvCDF(0, 1, degrees, Upper);

    private static double Millimetres(JsonElement length) =>
        (double)PrintedLength.Parse(length.GetString()!).OrThrow().Value.Millimetres;

    private static List<(JsonElement Budget, string Uncertainty)> Budgets(ServiceRecord record)
    {
        var assessment = new RuleEngine().Assess(
            record,
            ContextFreezer.Freeze(DemoSeasons.Site, record),
            DemoSeasons.Rules.Book,
            new(Digest, Digest, Digest)
        );
        using var written = JsonDocument.Parse(AssessmentFormat.Current.Write(assessment));
        var root = written.RootElement.Clone();
        return
        [
            .. root.GetProperty("findings")
                .EnumerateArray()
                .SelectMany(finding =>
                    finding.TryGetProperty("comparisons", out var all) ? all.EnumerateArray().ToList() : []
                )
                .Where(compared => compared.TryGetProperty("uncertainty", out _))
                .Select(compared =>
                    (compared.GetProperty("budget"), compared.GetProperty("uncertainty").GetString()!)
                ),
        ];
    }

    /// <summary>Every gauge with a study of its repeatability on few degrees of freedom, in place of what it stated.</summary>
    private static ServiceRecord WithStudies(ServiceRecord record, int degrees) =>
        record with
        {
            Instruments =
            [
                .. record.Instruments.Select(gauge =>
                    gauge.Resolution is { } step
                        ? gauge with
                        {
                            Repeatability = null,
                            RepeatabilityStudies = [new(step, degrees)],
                        }
                        : gauge
                ),
            ],
        };

    private sealed record Line(double U, double? Degrees, bool IsCounted);
}
