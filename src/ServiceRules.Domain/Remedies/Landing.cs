using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>What one place has now and will have after turning.</summary>
/// <param name="Place">Station or end.</param>
/// <param name="Station">Distance from the left end.</param>
/// <param name="Before">What is known now; at an end, by the fitted line.</param>
/// <param name="After">The same, moved by the lever geometry.</param>
public sealed record Landing(LandingPlace Place, Length Station, Knowledge Before, Knowledge After);
