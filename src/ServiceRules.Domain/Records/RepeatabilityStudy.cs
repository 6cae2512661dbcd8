using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>One study of how a gauge repeats: one piece read again and again by one person.</summary>
/// <param name="Deviation">Standard deviation of a single reading.</param>
/// <param name="DegreesOfFreedom">One fewer than the readings; 1 or more.</param>
public sealed record RepeatabilityStudy(PrintedLength Deviation, int DegreesOfFreedom);
