using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>A length known at one place of a unit at one visit, with a gauge that may be believed.</summary>
/// <param name="Quantity">What.</param>
/// <param name="Station">Where; null: the quantity has one place.</param>
/// <param name="Gauge">With which gauge; null: several, or none named.</param>
/// <param name="Value">The value with its uncertainty.</param>
/// <param name="System">The units that it was read in.</param>
/// <param name="AsFound">Known of the unit as it was found.</param>
/// <param name="AsLeft">Known of the unit as it was left.</param>
public sealed record PlaceSeen(
    MeasuredQuantity Quantity,
    Length? Station,
    Id<Instrument>? Gauge,
    MeasuredValue Value,
    UnitSystem System,
    bool AsFound,
    bool AsLeft
);
