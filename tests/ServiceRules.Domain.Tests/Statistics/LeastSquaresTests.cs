using System.Collections.Immutable;
using System.Text.Json;
using ServiceRules.Domain.Statistics;
using static ServiceRules.Domain.Tests.Statistics.ReferenceDataSets;

namespace ServiceRules.Domain.Tests.Statistics;

/// <summary>Outside values: NIST StRD, linear regression; certified to 15 digits.</summary>
public sealed class LeastSquaresTests
{
    // The file lets Filip be left out or met to 1e-6; what decimals reach is held here for every set.
    private const double Reached = 2e-14;

    public static TheoryData<string> Sets() => Names(Regressions);

    [Theory]
    [MemberData(nameof(Sets))]
    public void Of_CertifiedSet_MeetsEveryCoefficientAndItsDeviation(string name)
    {
        var certified = Regressions.Called(name);
        var fit = Fit(name);
        var parameters = certified.GetProperty("parameters").EnumerateArray().ToList();
        Assert.Equal(parameters.Count, fit.Coefficients.Length);
        for (var j = 0; j < parameters.Count; j++)
        {
            var called = parameters[j].GetProperty("name").GetString()!;
            Near(Certified(parameters[j].GetProperty("estimate")), fit.Coefficients[j], Reached, called);
            Near(
                Certified(parameters[j].GetProperty("standard_deviation")),
                fit.StandardDeviations[j],
                Reached,
                $"deviation of {called}"
            );
        }
    }

    [Theory]
    [MemberData(nameof(Sets))]
    public void Of_CertifiedSet_MeetsScatterShareAndAnalysisOfVariance(string name)
    {
        var certified = Regressions.Called(name);
        var anova = certified.GetProperty("anova");
        var fit = Fit(name);
        var left = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
        var explainedDegrees = anova.GetProperty("regression_df").GetInt32();

        Near(
            Certified(certified.GetProperty("residual_standard_deviation")),
            fit.ResidualStandardDeviation,
            Reached,
            "residual deviation"
        );
        Near(Certified(certified.GetProperty("r_squared")), fit.RSquared, Reached, "R squared");
        Assert.Equal(anova.GetProperty("residual_df").GetInt32(), fit.DegreesOfFreedom);
        Near(Certified(anova.GetProperty("residual_ms")), left, Reached, "residual mean square");
        Near(
            Certified(anova.GetProperty("residual_ss")),
            left * fit.DegreesOfFreedom,
            Reached,
            "residual squares"
        );
        Near(
            Certified(anova.GetProperty("regression_ms")),
            fit.Ratio!.Value * left,
            Reached,
            "explained mean square"
        );
        Near(
            Certified(anova.GetProperty("regression_ss")),
            fit.Ratio.Value * left * explainedDegrees,
            Reached,
            "explained squares"
        );
        Near(Certified(anova.GetProperty("f")), fit.Ratio.Value, Reached, "F");
    }

    [Fact]
    public void Of_AColumnThatRepeatsAnother_IsNone() =>
        Assert.Null(
            LeastSquares.Of(
                [
                    [1m, 1m, 1m, 1m],
                    [1m, 2m, 3m, 4m],
                    [2m, 4m, 6m, 8m],
                ],
                [1m, 2m, 2m, 3m]
            )
        );

    [Fact]
    public void Of_NoMoreObservationsThanColumns_IsNone()
    {
        Assert.Null(
            LeastSquares.Of(
                [
                    [1m, 1m],
                    [1m, 2m],
                ],
                [1m, 2m]
            )
        );
        Assert.NotNull(
            LeastSquares.Of(
                [
                    [1m, 1m, 1m],
                    [1m, 2m, 3m],
                ],
                [1m, 2m, 4m]
            )
        );
    }

    [Fact]
    public void Of_ObservationsOnTheFit_LeavesNoRatio()
    {
        var fit = LeastSquares.Of(
            [
                [1m, 1m, 1m],
                [1m, 2m, 4m],
            ],
            [5m, 7m, 11m]
        )!;

        Assert.Null(fit.Ratio);
        ReferenceNumber.Near(3m, fit.Coefficients[0]);
        ReferenceNumber.Near(2m, fit.Coefficients[1]);
        ReferenceNumber.Near(1m, fit.RSquared);
    }

    [Fact]
    public void Of_NothingObservedButZero_ExplainsNothing()
    {
        var fit = LeastSquares.Of(
            [
                [1m, 2m, 3m],
            ],
            [0m, 0m, 0m]
        )!;

        Assert.Equal(0m, fit.Coefficients[0]);
        Assert.Equal(0m, fit.RSquared);
    }

    private static LeastSquares Fit(string name)
    {
        var rows = Rows(name);
        return LeastSquares.Of(Design(Regressions.Called(name), rows), [.. rows.Select(row => row[0])])!;
    }

    private static ImmutableArray<ImmutableArray<decimal>> Design(
        JsonElement certified,
        ImmutableArray<ImmutableArray<decimal>> rows
    )
    {
        var parameters = certified.GetProperty("parameters").GetArrayLength();
        var isPowers = rows[0].Length == 2;
        var first = certified.GetProperty("intercept").GetBoolean() ? 0 : 1;
        return
        [
            .. Enumerable
                .Range(first, parameters)
                .Select(j => rows.Select(row => Term(row, j, isPowers)).ToImmutableArray()),
        ];
    }

    private static decimal Term(ImmutableArray<decimal> row, int term, bool isPowers) =>
        term == 0 ? 1
        : !isPowers ? row[term]
        : Enumerable.Repeat(row[1], term).Aggregate(1m, (product, x) => product * x);
}
