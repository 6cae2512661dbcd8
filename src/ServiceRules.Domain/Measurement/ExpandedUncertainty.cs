using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// An expanded uncertainty U = k·u (JCGM 100:2008, 6.2.1) with k from <see cref="CoverageFactor"/>, as a
/// length rounded up to a whole <see cref="StandardUncertainty.Quantum"/>.
/// </summary>
/// <param name="Value">U, zero or more.</param>
/// <param name="CoverageFactor">k.</param>
public sealed record ExpandedUncertainty(Length Value, decimal CoverageFactor)
{
    /// <summary>U for a standard uncertainty with its degrees of freedom.</summary>
    public static ExpandedUncertainty From(StandardUncertainty uncertainty, DegreesOfFreedom degreesOfFreedom)
    {
        var factor = Measurement.CoverageFactor.For(degreesOfFreedom);
        var expanded = StandardUncertainty.RoundUp(uncertainty.Value.Millimetres * factor);
        return new(Length.FromMillimetres(expanded), factor);
    }
}
