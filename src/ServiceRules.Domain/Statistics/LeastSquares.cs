using System.Collections.Immutable;

namespace ServiceRules.Domain.Statistics;

/// <summary>
/// Least squares y ≈ Σbⱼxⱼ over any columns xⱼ, by orthogonalising them (Gram-Schmidt, each column twice) in decimal
/// arithmetic of 28 digits. Ill-conditioned columns lose as many digits as they must and no verdict hangs on the bits
/// of a machine. Coefficients carry the standard deviations of ordinary regression, s·√((XᵀX)⁻¹)ⱼⱼ with
/// s² = Σrᵢ²/(n - p).
/// </summary>
internal sealed class LeastSquares
{
    // What is left of observations near one after a fit that is exact but for rounding.
    private const decimal LeastSpread = 1e-20m;

    private LeastSquares(OrthogonalColumns orthogonal, ImmutableArray<decimal> observed, bool hasConstant)
    {
        var exponent = DecimalArithmetic.Exponent(observed);
        decimal[] left = [.. observed.Select(value => DecimalArithmetic.Scaled(value, -exponent))];
        // What a column adds to observations near one is rounding when it is as small as that: equal values have no slope.
        decimal[] shares =
        [
            .. orthogonal.TakeOut(left).Select(share => Math.Abs(share) <= LeastSpread ? 0 : share),
        ];
        var inverse = orthogonal.Inverse();
        DegreesOfFreedom = left.Length - shares.Length;
        var residual = DecimalArithmetic.Norm(left);
        var spread = residual / DecimalArithmetic.SquareRoot(DegreesOfFreedom);
        ResidualStandardDeviation = DecimalArithmetic.Scaled(spread, exponent);
        Coefficients =
        [
            .. inverse.Select(
                (row, j) => Back(DecimalArithmetic.Product(row, shares), exponent - orthogonal.Exponents[j])
            ),
        ];
        StandardDeviations =
        [
            .. inverse.Select(
                (row, j) => Back(spread * DecimalArithmetic.Norm(row), exponent - orthogonal.Exponents[j])
            ),
        ];
        var explaining = shares.Skip(hasConstant ? 1 : 0).ToList();
        var explained = explaining.Sum(share => share * share);
        RSquared = explained == 0 ? 0 : explained / (explained + (residual * residual));
        Ratio =
            spread <= LeastSpread || explaining.Count == 0
                ? null
                : explained / explaining.Count / spread / spread;
    }

    /// <summary>bⱼ, in the order of the columns.</summary>
    public ImmutableArray<decimal> Coefficients { get; }

    /// <summary>The standard deviation of each coefficient.</summary>
    public ImmutableArray<decimal> StandardDeviations { get; }

    /// <summary>s, of one observation about the fit.</summary>
    public decimal ResidualStandardDeviation { get; }

    /// <summary>n - p, one or more.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>
    /// The share of the squares that the fit explains: about the mean where the first column is constant, else about
    /// zero. Zero where there is nothing to explain.
    /// </summary>
    public decimal RSquared { get; }

    /// <summary>
    /// The variance ratio F: mean square explained (without the constant) over mean square left. None where
    /// nothing is left.
    /// </summary>
    public decimal? Ratio { get; }

    /// <summary>
    /// Fits. None with no more observations than columns, or when a column says nothing that those before it do not.
    /// </summary>
    /// <param name="columns">Each as long as the observations; a constant, if any, first. Magnitudes up to 1e12.</param>
    /// <param name="observed">y, magnitudes up to 1e12.</param>
    public static LeastSquares? Of(
        ImmutableArray<ImmutableArray<decimal>> columns,
        ImmutableArray<decimal> observed
    ) =>
        observed.Length > columns.Length && OrthogonalColumns.Of(columns) is { } orthogonal
            ? new(orthogonal, observed, columns[0].All(value => value == columns[0][0]))
            : null;

    private static decimal Back(decimal scaled, int exponent) => DecimalArithmetic.Scaled(scaled, exponent);
}
