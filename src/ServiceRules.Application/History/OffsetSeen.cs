using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Application.History;

/// <summary>A bench height beside the height of the turf that it had made, in one record.</summary>
internal sealed record OffsetSeen(
    string Site,
    Id<MachineVisit> Machine,
    string? Area,
    int Season,
    HeightPair Pair,
    UnitSystem System
);
