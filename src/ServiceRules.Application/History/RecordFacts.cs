using System.Collections.Immutable;

namespace ServiceRules.Application.History;

/// <summary>What a history keeps of one record.</summary>
internal sealed record RecordFacts(
    DateOnly Day,
    ImmutableArray<UnitVisit> Visits,
    ImmutableArray<GaugeSeen> Gauges,
    ImmutableArray<TwoGauges> Pairs,
    ImmutableArray<ValueLeft> Left,
    OffsetSeen? Offset
);
