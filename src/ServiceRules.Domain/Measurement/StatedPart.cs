namespace ServiceRules.Domain.Measurement;

/// <summary>A part of the errors that expands to more than all of them together.</summary>
/// <param name="Combined">Its u.</param>
/// <param name="DegreesOfFreedom">Its ν.</param>
/// <param name="CoverageFactor">k for that ν at 95.45 %.</param>
public sealed record StatedPart(
    StandardUncertainty Combined,
    DegreesOfFreedom DegreesOfFreedom,
    decimal CoverageFactor
);
