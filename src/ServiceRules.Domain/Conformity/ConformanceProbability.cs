using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// The probability that the true value of a measured length lies within limits (JCGM 106:2012, 7.2 to 7.4):
/// normal for infinite degrees of freedom, Student's t scaled by u otherwise.
/// </summary>
public static class ConformanceProbability
{
    /// <summary>The probability of conformance, rounded to a billionth.</summary>
    public static Probability Of(ToleranceZone zone, MeasuredValue measured) =>
        measured.Uncertainty == StandardUncertainty.Zero
            ? (zone.Contains(measured.Value) ? Probability.One : Probability.Zero)
            : Probability.FromComputed(Computed(zone, measured));

    /// <summary>
    /// Between what the probability lies, over all selections of the errors of which one expands to the most
    /// (<see cref="IndependentErrors"/>): one value where no error says how well it is known, or no other stands beside it.
    /// </summary>
    public static ProbabilityRange Within(ToleranceZone zone, MeasuredValue measured)
    {
        ImmutableArray<Probability> each =
        [
            .. measured.Errors.Selections.Select(selection =>
                Of(
                    zone,
                    new MeasuredValue(
                        measured.Value,
                        StandardUncertainty.FromComputed(selection.Millimetres),
                        selection.DegreesOfFreedom
                    )
                )
            ),
        ];
        return each.IsEmpty ? new(Of(zone, measured), Of(zone, measured)) : new(each.Min(), each.Max());
    }

    /// <summary>
    /// All that is certain of a length of which only an interval is known: 1 when the whole interval is permitted, 0 when
    /// none of it is, else anything from 0 to 1. Open and closed ends count.
    /// </summary>
    public static ProbabilityRange Of(ToleranceZone zone, LengthInterval interval) =>
        new(
            KeepsLower(zone, interval) && KeepsUpper(zone, interval) ? Probability.One : Probability.Zero,
            IsOutside(zone, interval) ? Probability.Zero : Probability.One
        );

    /// <summary>
    /// By the declared model that every length in the interval is equally likely: the share of it that is permitted. None
    /// where an end is missing; an interval of one length is permitted or not.
    /// </summary>
    public static Probability? Uniform(ToleranceZone zone, LengthInterval interval)
    {
        if (interval.Width is not { } width)
        {
            return null;
        }

        if (width == Length.Zero)
        {
            return Of(zone, interval).Most;
        }

        var from = Length.Max(interval.Lower!.Value.Value, zone.Lower ?? interval.Lower.Value.Value);
        var until = Length.Min(interval.Upper!.Value.Value, zone.Upper ?? interval.Upper.Value.Value);
        var share = Length.Max(Length.Zero, until - from).Millimetres / width.Millimetres;
        return Probability.Of(share);
    }

    internal static double Computed(ToleranceZone zone, MeasuredValue measured)
    {
        var below = zone.Lower is { } lower ? Standardised(lower, measured) : double.NegativeInfinity;
        var above = zone.Upper is { } upper ? Standardised(upper, measured) : double.PositiveInfinity;
        var distribution = new StandardDistribution(measured.DegreesOfFreedom);

        // Above the value the difference is taken between upper tails, else between lower ones: far out both are small, so
        // that nothing cancels.
        return below > 0
            ? distribution.UpperTail(below) - distribution.UpperTail(above)
            : distribution.UpperTail(-above) - distribution.UpperTail(-below);
    }

    private static double Standardised(Length limit, MeasuredValue measured) =>
        (double)((limit - measured.Value).Millimetres / measured.Uncertainty.Value.Millimetres);

    private static bool KeepsLower(ToleranceZone zone, LengthInterval interval) =>
        zone.Lower is not { } lower
        || (interval.Lower is { } from && (from.Value > lower || IsKeptAt(zone, from, lower)));

    private static bool KeepsUpper(ToleranceZone zone, LengthInterval interval) =>
        zone.Upper is not { } upper
        || (interval.Upper is { } to && (to.Value < upper || IsKeptAt(zone, to, upper)));

    /// <summary>An end on the limit keeps it when the limit is permitted or the end is not possible itself.</summary>
    private static bool IsKeptAt(ToleranceZone zone, IntervalEnd end, Length limit) =>
        end.Value == limit && (zone.LimitItself is LimitItself.Permitted || !end.IsClosed);

    private static bool IsOutside(ToleranceZone zone, LengthInterval interval) =>
        (
            zone.Upper is { } upper
            && interval.Lower is { } from
            && (from.Value > upper || IsBeyondAt(zone, from, upper))
        )
        || (
            zone.Lower is { } lower
            && interval.Upper is { } to
            && (to.Value < lower || IsBeyondAt(zone, to, lower))
        );

    /// <summary>An end on the limit is beyond it when it is not possible itself, or the limit is not permitted.</summary>
    private static bool IsBeyondAt(ToleranceZone zone, IntervalEnd end, Length limit) =>
        end.Value == limit && (zone.LimitItself is LimitItself.Excluded || !end.IsClosed);
}
