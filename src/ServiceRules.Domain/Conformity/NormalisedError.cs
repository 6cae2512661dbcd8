using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// Whether two gauges agree on one length: Eₙ = |a - b|/√(Uₐ² + U_b²), at most 1 when they do (ISO 13528, from
/// memory). It needs the same place and nothing turned between.
/// </summary>
public sealed record NormalisedError
{
    private const int Decimals = 2;

    private NormalisedError(Length difference, Length limit)
    {
        Difference = difference;
        Limit = limit;
    }

    /// <summary>|a - b|.</summary>
    public Length Difference { get; }

    /// <summary>√(Uₐ² + U_b²): the largest difference that two sound gauges explain.</summary>
    public Length Limit { get; }

    /// <summary>Whether the difference is explained by what is known of both gauges; equality is.</summary>
    public bool Agrees => Difference <= Limit;

    /// <summary>Eₙ to two decimals; none where both are exactly known.</summary>
    public decimal? Value =>
        Limit == Length.Zero ? null : Math.Round(Difference.Millimetres / Limit.Millimetres, Decimals);

    /// <summary>Holds two readings of one length against each other.</summary>
    public static NormalisedError Of(MeasuredValue one, MeasuredValue other)
    {
        var limit = UncertaintyBudget
            .Of(
                new(UncertaintySource.Reading, (double)one.Expanded.Value.Millimetres, default),
                new(UncertaintySource.Reading, (double)other.Expanded.Value.Millimetres, default)
            )
            .Combined;
        return new((one.Value - other.Value).Abs, limit.Value);
    }
}
