using ServiceRules.Domain.Statistics;
using static ServiceRules.Domain.Tests.Statistics.ReferenceDataSets;

namespace ServiceRules.Domain.Tests.Statistics;

/// <summary>Outside values: NIST StRD, univariate summary statistics; certified to 15 digits.</summary>
public sealed class MomentsTests
{
    // Tighter than what the file asks (1e-7 for the deviation of NumAcc4): decimals lose nothing to the large mean.
    private const double Reached = 2e-15;

    public static TheoryData<string> Sets() => Names(Univariate);

    [Theory]
    [MemberData(nameof(Sets))]
    public void Of_CertifiedSet_MeetsMeanDeviationAndAutocorrelation(string name)
    {
        var certified = Univariate.Called(name);
        var moments = Moments.Of([.. Rows(name).Select(row => row[0])])!;

        Assert.Equal(certified.GetProperty("observations").GetInt32(), moments.Count);
        Near(Certified(certified.GetProperty("mean")), moments.Mean, Reached, "mean");
        Near(
            Certified(certified.GetProperty("standard_deviation_n_minus_1")),
            moments.StandardDeviation,
            Reached,
            "deviation"
        );
        Near(
            Certified(certified.GetProperty("lag1_autocorrelation")),
            moments.LagOneAutocorrelation!.Value,
            Reached,
            "autocorrelation"
        );
    }

    [Fact]
    public void Of_OneValue_IsNone() => Assert.Null(Moments.Of([3m]));

    [Fact]
    public void Of_EqualValues_HaveNoSpreadAndFollowNothing() =>
        Assert.Equal(new Moments(3, 0.1m, 0m, null), Moments.Of([0.1m, 0.1m, 0.1m]));
}
