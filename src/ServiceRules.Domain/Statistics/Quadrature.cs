using MathNet.Numerics.Integration;

namespace ServiceRules.Domain.Statistics;

/// <summary>Integrals over one panel, narrow enough that the function changes little in it.</summary>
internal static class Quadrature
{
    private const int Order = 32;

    /// <summary>∫f dx between two ends, by Gauss-Legendre of order 32.</summary>
    public static double Over(double from, double until, Func<double, double> function) =>
        GaussLegendreRule.Integrate(function, from, until, Order);

    /// <summary>
    /// ∫f dx from zero, where f may start like a broken power of x: x = end·s⁴ makes it smooth enough.
    /// </summary>
    public static double FromZero(double until, Func<double, double> function) =>
        Over(0, 1, s => function(until * s * s * s * s) * 4 * until * s * s * s);
}
