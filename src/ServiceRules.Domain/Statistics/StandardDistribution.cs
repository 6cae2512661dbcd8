using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Statistics;

/// <summary>
/// The standardised distribution of a measured value about its estimate: normal for infinite degrees of freedom,
/// Student's t otherwise (JCGM 100:2008, G.3), with any degrees of freedom from 1 on.
/// </summary>
/// <param name="DegreesOfFreedom">How well the standard deviation is known.</param>
internal readonly record struct StandardDistribution(DegreesOfFreedom DegreesOfFreedom)
{
    /// <summary>The density of the normal distribution of deviation one.</summary>
    public static double NormalDensity(double standardised) => Normal.PDF(0, 1, standardised);

    /// <summary>The chance of more than this many standard deviations, without cancellation in either tail.</summary>
    public double UpperTail(double standardised)
    {
        if (double.IsPositiveInfinity(standardised))
        {
            return 0;
        }

        return DegreesOfFreedom.Number is { } finite
            ? StudentT.CDF(0, 1, finite, -standardised)
            : 0.5 * SpecialFunctions.Erfc(standardised / Math.Sqrt(2));
    }

    /// <summary>
    /// How many standard deviations are exceeded with this chance. The library's quantile is improved by one step
    /// of Newton's on its distribution function, which is the more exact of the two.
    /// </summary>
    /// <param name="tail">From 0 to below 1; 0 is exceeded by nothing.</param>
    public double UpperQuantile(double tail)
    {
        if (tail <= 0)
        {
            return double.PositiveInfinity;
        }

        if (DegreesOfFreedom.Number is not { } finite)
        {
            var normal = -Normal.InvCDF(0, 1, tail);
            return normal + ((UpperTail(normal) - tail) / NormalDensity(normal));
        }

        var student = -StudentT.InvCDF(0, 1, finite, tail);
        return student + ((UpperTail(student) - tail) / StudentT.PDF(0, 1, finite, student));
    }
}
