using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// An expanded uncertainty U = k·u (JCGM 100:2008, 6.2.1) as <see cref="IndependentErrors"/> expand, as a
/// length rounded up to a whole <see cref="StandardUncertainty.Quantum"/>.
/// </summary>
/// <param name="Value">U, zero or more.</param>
/// <param name="CoverageFactor">k, what U is of u.</param>
public sealed record ExpandedUncertainty(Length Value, decimal CoverageFactor);
