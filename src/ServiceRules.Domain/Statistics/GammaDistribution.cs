using MathNet.Numerics.Distributions;

namespace ServiceRules.Domain.Statistics;

/// <summary>The gamma distribution, for what cannot fall below zero.</summary>
/// <param name="Shape">Above zero.</param>
/// <param name="Rate">Above zero: shape over mean.</param>
internal readonly record struct GammaDistribution(double Shape, double Rate)
{
    /// <summary>
    /// Probability density at a value of zero or more. By its logarithm: the powers of which it is a product leave the range
    /// of numbers long before it does.
    /// </summary>
    public double Density(double value) => Math.Exp(Gamma.PDFLn(Shape, Rate, value));

    /// <summary>The chance of no more than a value of zero or more.</summary>
    public double Cumulative(double value) => Gamma.CDF(Shape, Rate, value);
}
