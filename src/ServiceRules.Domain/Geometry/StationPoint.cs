using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>A value at one station along the width, taken as exact.</summary>
/// <param name="Station">Distance from the left end.</param>
/// <param name="Value">The value there.</param>
public readonly record struct StationPoint(Length Station, Length Value);
