using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>A predicted value at a place.</summary>
public sealed record PredictedGap(string Place, Length Before, Length After);
