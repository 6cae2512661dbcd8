using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>What is known of a quantity at one station along the width.</summary>
/// <param name="Station">Distance from the left end, left as seen from the operator's seat looking forward.</param>
/// <param name="Knowledge">What is known there.</param>
public sealed record StationReading(Length Station, Knowledge Knowledge)
{
    /// <summary>What it shares with other readings of its gauge; none where that is said for all readings together.</summary>
    public SharedError? Shared { get; init; }
}
