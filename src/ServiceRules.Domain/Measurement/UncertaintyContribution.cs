using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>One line of an uncertainty budget, in millimetres of the measured length (sensitivity 1).</summary>
public sealed record UncertaintyContribution
{
    internal UncertaintyContribution(
        UncertaintySource source,
        double millimetres,
        DegreesOfFreedom degreesOfFreedom
    )
    {
        Source = source;
        Millimetres = millimetres;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>Where it comes from.</summary>
    public UncertaintySource Source { get; }

    /// <summary>Its standard uncertainty, rounded up to the quantum for showing; the sum uses the unrounded value.</summary>
    public StandardUncertainty Uncertainty => StandardUncertainty.FromComputed(Millimetres);

    /// <summary>How well that uncertainty is known.</summary>
    public DegreesOfFreedom DegreesOfFreedom { get; }

    internal double Millimetres { get; }

    /// <summary>A gauge that shows steps of q: u = q/√12 (JCGM 100:2008, F.2.2.1).</summary>
    /// <param name="step">The smallest step shown, zero or more.</param>
    public static UncertaintyContribution Resolution(Length step) =>
        Rectangular(UncertaintySource.Resolution, step, Math.Sqrt(12));

    /// <summary>Anywhere within ±a with equal chance: u = a/√3 (JCGM 100:2008, 4.3.7).</summary>
    /// <param name="source">What is only known to within the half width.</param>
    /// <param name="halfWidth">a, zero or more.</param>
    public static UncertaintyContribution WithinHalfWidth(UncertaintySource source, Length halfWidth) =>
        Rectangular(source, halfWidth, Math.Sqrt(3));

    /// <summary>From a certificate that states U and k: u = U/k (JCGM 100:2008, 4.3.3).</summary>
    /// <param name="expanded">U, zero or more.</param>
    /// <param name="coverageFactor">k, above zero.</param>
    public static UncertaintyContribution Calibration(Length expanded, decimal coverageFactor)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(expanded.Millimetres, nameof(expanded));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverageFactor);
        return new(UncertaintySource.Calibration, (double)(expanded.Millimetres / coverageFactor), default);
    }

    /// <summary>
    /// A zero check on a setting piece that came out within a stated deviation: that deviation as a half width.
    /// </summary>
    /// <param name="largestDeviation">The largest deviation the check let pass, zero or more.</param>
    public static UncertaintyContribution ZeroCheck(Length largestDeviation) =>
        WithinHalfWidth(UncertaintySource.ZeroCheck, largestDeviation);

    /// <summary>
    /// The mean of n readings by a method whose standard deviation is s: u = s/√n (JCGM 100:2008, 4.2.3),
    /// known with the degrees of freedom of s.
    /// </summary>
    /// <param name="standardDeviation">s of a single reading, zero or more; pooled where many jobs were used.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom behind s.</param>
    /// <param name="readings">n, at least 1.</param>
    public static UncertaintyContribution Repeatability(
        Length standardDeviation,
        DegreesOfFreedom degreesOfFreedom,
        int readings
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegative(standardDeviation.Millimetres, nameof(standardDeviation));
        ArgumentOutOfRangeException.ThrowIfLessThan(readings, 1);
        var u = (double)standardDeviation.Millimetres / Math.Sqrt(readings);
        return new(UncertaintySource.Repeatability, u, degreesOfFreedom);
    }

    private static UncertaintyContribution Rectangular(UncertaintySource source, Length width, double divisor)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(width.Millimetres, nameof(width));
        return new(source, (double)width.Millimetres / divisor, default);
    }
}
