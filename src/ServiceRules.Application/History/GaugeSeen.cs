using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>A zero check of a gauge in one record.</summary>
/// <param name="Gauge">Which gauge.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Record">The record.</param>
/// <param name="Day">Its day.</param>
/// <param name="Error">Reading minus the setting piece's value.</param>
/// <param name="Step">The smallest step that the gauge shows.</param>
public sealed record GaugeSeen(
    Id<Instrument> Gauge,
    InstrumentKind Kind,
    Id<ServiceRecord> Record,
    DateOnly Day,
    PrintedLength Error,
    Length Step
);
