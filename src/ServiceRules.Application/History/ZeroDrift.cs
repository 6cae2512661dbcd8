using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.History;

/// <summary>A zero that moved over the time of its checks.</summary>
/// <param name="Moved">How far, by the line of Theil and Sen.</param>
/// <param name="Level">How much the band of its slope, which leaves standing still out, covers.</param>
public sealed record ZeroDrift(Length Moved, Probability Level);
