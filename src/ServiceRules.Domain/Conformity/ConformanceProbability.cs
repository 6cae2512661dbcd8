using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// The probability that the true value of a measured length lies within limits (JCGM 106:2012, 7.2 to 7.4):
/// normal for infinite degrees of freedom, Student's t scaled by u otherwise, with the degrees of freedom
/// truncated as for the coverage factor.
/// </summary>
public static class ConformanceProbability
{
    /// <summary>The probability of conformance, rounded to a billionth.</summary>
    public static Probability Of(ToleranceZone zone, MeasuredValue measured) =>
        measured.Uncertainty == StandardUncertainty.Zero
            ? (zone.Contains(measured.Value) ? Probability.One : Probability.Zero)
            : Probability.FromComputed(Computed(zone, measured));

    internal static double Computed(ToleranceZone zone, MeasuredValue measured)
    {
        var below = zone.Lower is { } lower ? Standardised(lower, measured) : double.NegativeInfinity;
        var above = zone.Upper is { } upper ? Standardised(upper, measured) : double.PositiveInfinity;
        var distribution = new StandardDistribution(measured.DegreesOfFreedom);

        // Each difference is taken between the two smaller tails, so that nothing cancels.
        if (below > 0)
        {
            return distribution.UpperTail(below) - distribution.UpperTail(above);
        }

        return above < 0
            ? distribution.UpperTail(-above) - distribution.UpperTail(-below)
            : 1 - (distribution.UpperTail(-below) + distribution.UpperTail(above));
    }

    private static double Standardised(Length limit, MeasuredValue measured) =>
        (double)((limit - measured.Value).Millimetres / measured.Uncertainty.Value.Millimetres);
}
