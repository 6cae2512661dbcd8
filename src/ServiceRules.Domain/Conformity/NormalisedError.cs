using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// Whether two readings of one length agree: their difference over its own expanded uncertainty is at most 1. Of two gauges
/// Eₙ = |a - b|/√(Uₐ² + U_b²) (ISO/IEC 17043:2023, annex B; ISO 13528:2022, 9.7, from memory); of one gauge what both readings
/// share drops out of the difference (JCGM 100:2008, 5.2.2). It needs the same place and nothing turned between.
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

    /// <summary>The largest difference that is explained: √(Uₐ² + U_b²) of two gauges, U of the difference of one.</summary>
    public Length Limit { get; }

    /// <summary>Whether the difference is explained by what is known of the gauges; equality is.</summary>
    public bool Agrees => Difference <= Limit;

    /// <summary>Eₙ to two decimals; none where both are exactly known.</summary>
    public decimal? Value =>
        Limit == Length.Zero ? null : Math.Round(Difference.Millimetres / Limit.Millimetres, Decimals);

    /// <summary>Holds two readings of one length with two gauges against each other.</summary>
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

    /// <summary>
    /// Holds two readings of one length with one gauge against each other: the error that both share explains no difference.
    /// </summary>
    /// <param name="one">The one reading.</param>
    /// <param name="other">The other.</param>
    /// <param name="ofOne">What the one shares with all readings of the gauge.</param>
    /// <param name="ofOther">What the other shares with them.</param>
    /// <param name="step">
    /// The step that the gauge shows, zero or more: so far rounding alone may set one length apart, however small its u.
    /// </param>
    public static NormalisedError OfOneGauge(
        MeasuredValue one,
        MeasuredValue other,
        SharedError? ofOne,
        SharedError? ofOther,
        Length step
    )
    {
        var difference = (MeasuredValue)KnownDifference.Between(one, other, ofOne, ofOther);
        return new(difference.Value.Abs, Length.Max(difference.Expanded.Value, step));
    }
}
