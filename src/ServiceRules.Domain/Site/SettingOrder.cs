using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>Targets by area and the contact school by kind of unit, in force over a period.</summary>
public sealed record SettingOrder
{
    /// <summary>Identity.</summary>
    public required Id<SettingOrder> Id { get; init; }

    /// <summary>Who set it.</summary>
    public required Id<Participant> By { get; init; }

    /// <summary>First day in force.</summary>
    public required DateOnly From { get; init; }

    /// <summary>Last day in force; absent: until replaced.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Targets by turf area.</summary>
    public required ImmutableArray<AreaTarget> Targets { get; init; }

    /// <summary>Contact school by limit sheet.</summary>
    public required ImmutableArray<SchoolChoice> Schools { get; init; }

    /// <summary>Speeds to mow at, by turf area.</summary>
    public ImmutableArray<AreaMowing> Mowing { get; init; } = [];
}
