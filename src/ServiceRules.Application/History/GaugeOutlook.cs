using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>The zero checks of one gauge over the records.</summary>
/// <param name="Gauge">Which gauge.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Checks">How many zero checks.</param>
/// <param name="First">Day of the first.</param>
/// <param name="Last">Day of the last.</param>
/// <param name="Off">The checks that came out off by more than the gauge's step.</param>
/// <param name="Drift">How the zero moved over that time; null: no movement is shown.</param>
/// <param name="System">The units of the checks.</param>
public sealed record GaugeOutlook(
    Id<Instrument> Gauge,
    InstrumentKind Kind,
    int Checks,
    DateOnly First,
    DateOnly Last,
    ImmutableArray<GaugeSeen> Off,
    ZeroDrift? Drift,
    UnitSystem System
);
