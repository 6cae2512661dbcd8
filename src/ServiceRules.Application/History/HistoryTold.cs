using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>What the records tell over time.</summary>
public sealed record HistoryTold
{
    /// <summary>The day of the last record: everything is reckoned from there.</summary>
    public required DateOnly Through { get; init; }

    /// <summary>The day of the first record.</summary>
    public required DateOnly From { get; init; }

    /// <summary>What needs somebody, soonest first.</summary>
    public required ImmutableArray<HistoryAction> Actions { get; init; }

    /// <summary>The units, by site, machine and place on it.</summary>
    public required ImmutableArray<UnitOutlook> Units { get; init; }

    /// <summary>How machines cut off their bench height.</summary>
    public required ImmutableArray<OffsetOutlook> Offsets { get; init; }

    /// <summary>The zero checks of gauges.</summary>
    public required ImmutableArray<GaugeOutlook> Gauges { get; init; }

    /// <summary>Gauges that read the same places.</summary>
    public required ImmutableArray<GaugePairOutlook> GaugePairs { get; init; }

    /// <summary>What the shop leaves of each quantity on each kind of unit.</summary>
    public required ImmutableArray<ProcessOutlook> Processes { get; init; }

    /// <summary>Every unit that the records name, for who misspelt one.</summary>
    public required ImmutableArray<Id<UnitWork>> Known { get; init; }

    /// <summary>Records, and files that could not be used.</summary>
    public required FilesRead Files { get; init; }
}
