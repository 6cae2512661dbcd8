namespace ServiceRules.Domain.Measurement;

/// <summary>One line of a budget as told.</summary>
/// <param name="Source">Where it comes from.</param>
/// <param name="Uncertainty">Its standard uncertainty as it enters the value.</param>
/// <param name="DegreesOfFreedom">How well that is known.</param>
/// <param name="IsCounted">Whether U rests on it; not where the others by themselves come to more.</param>
public sealed record StatedContribution(
    UncertaintySource Source,
    StandardUncertainty Uncertainty,
    DegreesOfFreedom DegreesOfFreedom,
    bool IsCounted = true
);
