using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>One place of one unit read by two gauges with nothing turned in between.</summary>
/// <param name="Unit">Which unit.</param>
/// <param name="Quantity">What was read.</param>
/// <param name="Day">The day of the later reading.</param>
/// <param name="First">The gauge whose identity stands first.</param>
/// <param name="FirstValue">What it read.</param>
/// <param name="Second">The other gauge.</param>
/// <param name="SecondValue">What that one read.</param>
/// <param name="System">The units that were read in.</param>
internal sealed record TwoGauges(
    Id<UnitWork> Unit,
    MeasuredQuantity Quantity,
    DateOnly Day,
    Id<Instrument> First,
    MeasuredValue FirstValue,
    Id<Instrument> Second,
    MeasuredValue SecondValue,
    UnitSystem System
)
{
    /// <summary>A pair in the order of the gauges' identities.</summary>
    public static TwoGauges Of(
        Id<UnitWork> unit,
        MeasuredQuantity quantity,
        DateOnly day,
        UnitSystem system,
        (Id<Instrument> Gauge, MeasuredValue Value) one,
        (Id<Instrument> Gauge, MeasuredValue Value) other
    ) =>
        one.Gauge < other.Gauge
            ? new(unit, quantity, day, one.Gauge, one.Value, other.Gauge, other.Value, system)
            : new(unit, quantity, day, other.Gauge, other.Value, one.Gauge, one.Value, system);
}
