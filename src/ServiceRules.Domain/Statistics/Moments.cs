namespace ServiceRules.Domain.Statistics;

/// <summary>Mean, standard deviation and lag-one autocorrelation of values in their order.</summary>
/// <param name="Count">n, two or more.</param>
/// <param name="Mean">Σxᵢ/n.</param>
/// <param name="StandardDeviation">√(Σ(xᵢ - x̄)²/(n - 1)).</param>
/// <param name="LagOneAutocorrelation">
/// Σ(xᵢ - x̄)(xᵢ₊₁ - x̄)/Σ(xᵢ - x̄)²: how far each value follows the one before it; none where all are equal.
/// </param>
internal sealed record Moments(
    int Count,
    decimal Mean,
    decimal StandardDeviation,
    decimal? LagOneAutocorrelation
)
{
    /// <summary>Of two values or more.</summary>
    public static Moments? Of(IReadOnlyCollection<decimal> values)
    {
        if (values.Count < 2)
        {
            return null;
        }

        var mean = values.Sum() / values.Count;
        var deviations = values.Select(value => value - mean).ToList();
        var norm = DecimalArithmetic.Norm(deviations);
        if (norm == 0)
        {
            return new(values.Count, mean, 0, null);
        }

        var directions = deviations.ConvertAll(deviation => deviation / norm);
        return new(
            values.Count,
            mean,
            norm / DecimalArithmetic.SquareRoot(values.Count - 1),
            DecimalArithmetic.Product(directions, directions.Skip(1))
        );
    }
}
