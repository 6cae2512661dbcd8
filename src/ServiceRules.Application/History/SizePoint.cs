using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>A size of a part as a job left it.</summary>
/// <param name="Record">The record.</param>
/// <param name="Day">Its day.</param>
/// <param name="Hours">The hour meter; null where it was not noted or not comparable.</param>
/// <param name="Value">Mean over the gauging stations.</param>
/// <param name="System">The units that it was read in.</param>
/// <param name="Stretch">Which stretch from grind to grind it belongs to, counted from 0.</param>
public sealed record SizePoint(
    Id<ServiceRecord> Record,
    DateOnly Day,
    OperatingHours? Hours,
    Length Value,
    UnitSystem System,
    int Stretch
);
