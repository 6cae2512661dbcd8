using System.Collections.Immutable;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// The least-squares parabola over positions along the width, as a line and, square to it, a polynomial of degree two:
/// p(t) = d² - d·Σdᵢ³/Σdᵢ² - Σdᵢ²/n with d = t - t̄. Its coefficient of t² is c = Σp(tᵢ)gᵢ/Σp(tᵢ)².
/// </summary>
internal sealed class Parabola
{
    private const decimal LeastNorm = 1e-12m;

    private readonly ImmutableArray<decimal> _second;
    private readonly decimal _norm;
    private readonly decimal _mean;
    private readonly decimal _skew;
    private readonly decimal _spread;

    private Parabola(ImmutableArray<decimal> second, decimal norm, decimal mean, decimal skew, decimal spread)
    {
        _second = second;
        _norm = norm;
        _mean = mean;
        _skew = skew;
        _spread = spread;
    }

    /// <summary>Weights of -c/4: the parabola at mid-width minus the mean of its ends.</summary>
    public IEnumerable<decimal> BowWeights => _second.Select(second => -second / (4 * _norm));

    /// <summary>None with fewer than three different positions, or where they lie too close together.</summary>
    public static Parabola? Over(ImmutableArray<decimal> positions)
    {
        var centred = Positions.Centred(positions);
        var squares = Positions.SumOfSquares(centred);
        var skew = centred.Sum(d => d * d * d) / squares;
        var spread = squares / centred.Length;
        ImmutableArray<decimal> second = [.. centred.Select(d => Second(d, skew, spread))];
        var norm = Positions.SumOfSquares(second);
        return norm >= LeastNorm ? new(second, norm, Positions.Mean(positions), skew, spread) : null;
    }

    /// <summary>Weights of the parabola's right end minus its left end, from those of the line's.</summary>
    public ImmutableArray<decimal> TiltWeights(ImmutableArray<decimal> line)
    {
        // p(1/2) - p(-1/2).
        var rise = (-2 * _mean) - _skew;
        return [.. line.Zip(_second, (slope, second) => slope + (rise * second / _norm))];
    }

    /// <summary>Weights of what the parabola has more than the line at a position.</summary>
    public IEnumerable<decimal> DepartureWeights(decimal position)
    {
        var departure = Second(position - _mean, _skew, _spread);
        return _second.Select(second => departure * second / _norm);
    }

    /// <summary>Weights of what the mean of the parabola over the width has more than the line at mid-width.</summary>
    public IEnumerable<decimal> MeanDepartureWeights()
    {
        // The mean of t is 0 and that of t² 1/12, from -1/2 to 1/2.
        var departure = (1m / 12) + (_mean * _mean) + (_skew * _mean) - _spread;
        return _second.Select(second => departure * second / _norm);
    }

    private static decimal Second(decimal d, decimal skew, decimal spread) => (d * d) - (skew * d) - spread;
}
