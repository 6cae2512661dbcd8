using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Statistics;

/// <summary>
/// The least-squares line y = a + b·x through three points or more, with what it foretells. Ordinary regression: x known,
/// y scattering about the line independently and evenly.
/// </summary>
internal sealed class RegressionLine
{
    private readonly decimal _mean;
    private readonly decimal _spread;
    private readonly LeastSquares _fit;
    private readonly LeastSquares? _curve;

    private RegressionLine(LeastSquares fit, LeastSquares? curve, int count, decimal mean, decimal spread)
    {
        _fit = fit;
        _curve = curve;
        _mean = mean;
        _spread = spread;
        Count = count;
    }

    /// <summary>n.</summary>
    public int Count { get; }

    /// <summary>b.</summary>
    public decimal Slope => _fit.Coefficients[1];

    /// <summary>a, the line at x = 0.</summary>
    public decimal Intercept => At(0);

    /// <summary>Standard deviation of b: s/√Σ(xᵢ - x̄)².</summary>
    public decimal SlopeStandardDeviation => _fit.StandardDeviations[1];

    /// <summary>s, of one y about the line, on n - 2 degrees of freedom.</summary>
    public decimal ResidualStandardDeviation => _fit.ResidualStandardDeviation;

    /// <summary>n - 2.</summary>
    public int DegreesOfFreedom => _fit.DegreesOfFreedom;

    /// <summary>The share of the scatter of y about its mean that the line explains.</summary>
    public decimal RSquared => _fit.RSquared;

    /// <summary>The line through points; none with fewer than three, or when all have nearly the same x.</summary>
    public static RegressionLine? Through(ImmutableArray<(decimal X, decimal Y)> points)
    {
        if (points.Length < 3)
        {
            return null;
        }

        var mean = points.Average(point => point.X);
        ImmutableArray<decimal> ones = [.. points.Select(_ => 1m)];
        ImmutableArray<decimal> centred = [.. points.Select(point => point.X - mean)];
        ImmutableArray<decimal> observed = [.. points.Select(point => point.Y)];
        return LeastSquares.Of([ones, centred], observed) is { } fit
            ? new(
                fit,
                LeastSquares.Of([ones, centred, [.. centred.Select(x => x * x)]], observed),
                points.Length,
                mean,
                DecimalArithmetic.Norm(centred)
            )
            : null;
    }

    /// <summary>The line at x.</summary>
    public decimal At(decimal x) => _fit.Coefficients[0] + (Slope * (x - _mean));

    /// <summary>Half the width of the band in which one further y lies at x: t·s·√(1 + 1/n + (x - x̄)²/Σ(xᵢ - x̄)²).</summary>
    public decimal PredictionHalfWidth(decimal x, CoverageLevel level) =>
        Factor(level) * ResidualStandardDeviation * DecimalArithmetic.Norm([1m, Share, Lever(x)]);

    /// <summary>
    /// Whether there is a slope at all at this level: F > t². Points without scatter show whatever slope they have.
    /// </summary>
    public bool ShowsSlope(CoverageLevel level) =>
        _fit.Ratio is { } ratio ? ratio > Factor(level) * Factor(level) : Slope != 0;

    /// <summary>
    /// Whether the points bend by more than they scatter, so that a straight line foretells wrongly: the square of x
    /// in a least-squares parabola differs from zero at this level. Never with three points, which always fit a parabola.
    /// </summary>
    public bool ShowsBend(CoverageLevel level) =>
        _curve is { } curve
        && Math.Abs(curve.Coefficients[2])
            > CoverageFactor.At(level, Measurement.DegreesOfFreedom.Of(curve.DegreesOfFreedom))
                * curve.StandardDeviations[2];

    /// <summary>
    /// Where the line reaches y (inverse prediction). The ends are those x at which the band of the line itself
    /// reaches y (E. C. Fieller, 1954): with g = (t·s_b/b)² below 1,
    /// x̄ + (d ± t·s/b·√((1 - g)/n + d²/Σ(xᵢ - x̄)²))/(1 - g), where d = (y - ȳ)/b. Where the slope is not shown at the
    /// level the ends are open. None for a level line, or one that reaches y beyond 1e15.
    /// </summary>
    public LineReach? ReachOf(decimal y, CoverageLevel level)
    {
        if (DecimalArithmetic.Quotient(y - _fit.Coefficients[0], Slope) is not { } distance)
        {
            return null;
        }

        var best = _mean + distance;
        if (!ShowsSlope(level))
        {
            return new(best, null, null);
        }

        var relative = Factor(level) * SlopeStandardDeviation / Slope;
        var left = 1 - (relative * relative);
        var scatter = Factor(level) * ResidualStandardDeviation / Slope;
        var half = Math.Abs(
            scatter * DecimalArithmetic.Norm([DecimalArithmetic.SquareRoot(left) * Share, distance / _spread])
        );
        return new(
            best,
            _mean + DecimalArithmetic.Quotient(distance - half, left),
            _mean + DecimalArithmetic.Quotient(distance + half, left)
        );
    }

    private decimal Share => 1 / DecimalArithmetic.SquareRoot(Count);

    private decimal Lever(decimal x) => (x - _mean) / _spread;

    private decimal Factor(CoverageLevel level) =>
        CoverageFactor.At(level, Measurement.DegreesOfFreedom.Of(DegreesOfFreedom));
}
