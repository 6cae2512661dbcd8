using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>What lanes show besides the events themselves.</summary>
internal sealed record LaneOverlay
{
    /// <summary>When each person was protected.</summary>
    public required IReadOnlyDictionary<Id<Participant>, ImmutableArray<LaneStretch>> Protected { get; init; }

    /// <summary>When each person had hands in without being protected.</summary>
    public required IReadOnlyDictionary<
        Id<Participant>,
        ImmutableArray<LaneStretch>
    > Unprotected { get; init; }

    /// <summary>When each source was off, and what it stored was released.</summary>
    public required IReadOnlyDictionary<Id<EnergySource>, ImmutableArray<LaneStretch>> Off { get; init; }

    /// <summary>When each source was proven dead.</summary>
    public required IReadOnlyDictionary<Id<EnergySource>, ImmutableArray<LaneStretch>> Proven { get; init; }

    /// <summary>When the machine ran or was live.</summary>
    public required ImmutableArray<LaneStretch> Running { get; init; }

    /// <summary>Findings, by the events that they are drawn at.</summary>
    public required ImmutableArray<LaneMark> Marks { get; init; }
}
