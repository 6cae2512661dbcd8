using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Trade;

namespace ServiceRules.Application.History;

/// <summary>How far a machine cuts off its bench height on one area in one season. Data sourced, method derived.</summary>
/// <param name="Machine">Which machine.</param>
/// <param name="Area">On which area.</param>
/// <param name="Season">In which year.</param>
/// <param name="Pairs">Pairs of bench height and height on the turf.</param>
/// <param name="Learned">What they come to; null with fewer than three: nothing is predicted.</param>
/// <param name="BelowPrism">Pairs left out because a prism cannot be relied on so low (S06).</param>
/// <param name="LastBench">Bench height of the last pair.</param>
/// <param name="System">The units of the readings.</param>
public sealed record OffsetOutlook(
    Id<MachineVisit> Machine,
    string? Area,
    int Season,
    int Pairs,
    EffectiveHeightOffset? Learned,
    int BelowPrism,
    Length LastBench,
    UnitSystem System
);
