using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// What a process is declared to deliver before anything is measured (the prior of JCGM 106:2012, 6.2): a normal
/// distribution, or a gamma distribution for what cannot fall below zero. It is a model: whoever uses it declares it.
/// </summary>
public sealed record ProcessSpread
{
    /// <summary>The fewest readings from which a spread is taken: common practice, no source.</summary>
    public const int FewestReadings = 10;

    private const int Decimals = 9;

    private ProcessSpread(Length mean, Length standardDeviation, bool isGamma)
    {
        Mean = mean;
        StandardDeviation = standardDeviation;
        IsGamma = isGamma;
    }

    /// <summary>The mean.</summary>
    public Length Mean { get; }

    /// <summary>The standard deviation, above zero.</summary>
    public Length StandardDeviation { get; }

    /// <summary>Whether the model is the gamma distribution of this mean and deviation; else it is the normal one.</summary>
    public bool IsGamma { get; }

    /// <summary>How many readings it was taken from; none where it was declared outright.</summary>
    public int? Readings { get; private init; }

    /// <summary>
    /// Whether each reading follows the one before it, so that they tell less than their number says:
    /// lag-one autocorrelation beyond ±2/√n (NIST/SEMATECH e-Handbook, 1.3.3.1, approximate 95 % band).
    /// </summary>
    public bool Drifts { get; private init; }

    /// <summary>A normal distribution.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The deviation is not above zero.</exception>
    public static ProcessSpread Normal(Length mean, Length standardDeviation)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(
            standardDeviation.Millimetres,
            nameof(standardDeviation)
        );
        return new(mean, standardDeviation, isGamma: false);
    }

    /// <summary>
    /// The gamma distribution of this mean and deviation: shape (m/s)², rate m/s². Only where the deviation is no larger
    /// than the mean, so that its density is finite at zero.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The deviation is not above zero or larger than the mean.</exception>
    public static ProcessSpread Gamma(Length mean, Length standardDeviation)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(
            standardDeviation.Millimetres,
            nameof(standardDeviation)
        );
        ArgumentOutOfRangeException.ThrowIfGreaterThan(
            standardDeviation.Millimetres,
            mean.Millimetres,
            nameof(standardDeviation)
        );
        return new(mean, standardDeviation, isGamma: true);
    }

    /// <summary>
    /// From readings in their order, by their mean and standard deviation. None with fewer than
    /// <see cref="FewestReadings"/>, or when all are equal.
    /// </summary>
    /// <param name="readings">What the process delivered.</param>
    /// <param name="naturalBound">
    /// The value the quantity cannot pass. Where it is zero and the readings lie above it, the model is gamma.
    /// </param>
    public static ProcessSpread? FromReadings(IReadOnlyList<Length> readings, Length? naturalBound)
    {
        if (
            readings.Count < FewestReadings
            || Moments.Of([.. readings.Select(reading => reading.Millimetres)])
                is not { LagOneAutocorrelation: { } following } moments
        )
        {
            return null;
        }

        var isGamma = naturalBound == Length.Zero && moments.StandardDeviation <= moments.Mean;
        var band = 2 / DecimalArithmetic.SquareRoot(moments.Count);
        return new(
            Length.FromMillimetres(Math.Round(moments.Mean, Decimals)),
            Length.FromMillimetres(Math.Round(moments.StandardDeviation, Decimals)),
            isGamma
        )
        {
            Readings = moments.Count,
            Drifts = Math.Abs(following) > band,
        };
    }

    /// <summary>The chance of a value inside the limits, before anything is measured.</summary>
    internal double Within(ToleranceZone zone) =>
        (zone.Upper is { } upper ? Cumulative(upper) : 1) - (zone.Lower is { } lower ? Cumulative(lower) : 0);

    /// <summary>Probability density, per millimetre.</summary>
    internal double Density(double millimetres) =>
        IsGamma
            ? ByMoments.Density(millimetres)
            : StandardDistribution.NormalDensity((millimetres - (double)Mean.Millimetres) / Deviation)
                / Deviation;

    private double Deviation => (double)StandardDeviation.Millimetres;

    private GammaDistribution ByMoments
    {
        get
        {
            var perDeviation = (double)(Mean.Millimetres / StandardDeviation.Millimetres);
            return new(perDeviation * perDeviation, perDeviation / Deviation);
        }
    }

    private double Cumulative(Length value) =>
        !IsGamma
            ? new StandardDistribution(DegreesOfFreedom.Infinite).UpperTail(
                (double)((Mean - value).Millimetres / StandardDeviation.Millimetres)
            )
            : ByMoments.Cumulative((double)Length.Max(Length.Zero, value).Millimetres);
}
