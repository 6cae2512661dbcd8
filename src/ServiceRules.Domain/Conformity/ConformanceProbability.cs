using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// The probability that the true value of a measured length lies within limits (JCGM 106:2012, 7.2 to 7.4):
/// normal for infinite degrees of freedom, Student's t scaled by u otherwise, with the degrees of freedom
/// truncated as for the coverage factor.
/// </summary>
public static class ConformanceProbability
{
    /// <summary>The probability of conformance, rounded to a billionth.</summary>
    public static Probability Of(ToleranceZone zone, MeasuredValue measured) =>
        measured.Uncertainty == StandardUncertainty.Zero
            ? (zone.Contains(measured.Value) ? Probability.One : Probability.Zero)
            : Probability.FromComputed(Computed(zone, measured));

    internal static double Computed(ToleranceZone zone, MeasuredValue measured)
    {
        var below = zone.Lower is { } lower ? Standardised(lower, measured) : double.NegativeInfinity;
        var above = zone.Upper is { } upper ? Standardised(upper, measured) : double.PositiveInfinity;
        var degreesOfFreedom = measured.DegreesOfFreedom.Truncated;

        // Each difference is taken between the two smaller tails, so that nothing cancels.
        if (below > 0)
        {
            return UpperTail(below, degreesOfFreedom) - UpperTail(above, degreesOfFreedom);
        }

        return above < 0
            ? UpperTail(-above, degreesOfFreedom) - UpperTail(-below, degreesOfFreedom)
            : 1 - (UpperTail(-below, degreesOfFreedom) + UpperTail(above, degreesOfFreedom));
    }

    /// <summary>The value of the standardised distribution that is not exceeded with probability p.</summary>
    internal static double Quantile(double probability, int? degreesOfFreedom) =>
        degreesOfFreedom is { } finite
            ? StudentT.InvCDF(0, 1, finite, probability)
            : Normal.InvCDF(0, 1, probability);

    private static double Standardised(Length limit, MeasuredValue measured) =>
        (double)((limit - measured.Value).Millimetres / measured.Uncertainty.Value.Millimetres);

    private static double UpperTail(double standardised, int? degreesOfFreedom)
    {
        if (double.IsPositiveInfinity(standardised))
        {
            return 0;
        }

        return degreesOfFreedom is { } finite
            ? StudentT.CDF(0, 1, finite, -standardised)
            : 0.5 * SpecialFunctions.Erfc(standardised / Math.Sqrt(2));
    }
}
