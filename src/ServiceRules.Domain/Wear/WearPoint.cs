using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>A length as it was read when the hour meter showed so much.</summary>
/// <param name="At">Hour meter.</param>
/// <param name="Value">What was read: a diameter, a lip height, a land, a gap.</param>
public readonly record struct WearPoint(OperatingHours At, Length Value);
