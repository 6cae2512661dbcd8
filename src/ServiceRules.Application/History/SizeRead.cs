using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.History;

/// <summary>A size of a unit at one visit.</summary>
/// <param name="Value">Mean over the places.</param>
/// <param name="Doubt">Expanded uncertainty of the worst known place.</param>
/// <param name="System">The units that it was read in.</param>
public sealed record SizeRead(Length Value, Length Doubt, UnitSystem System);
