using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>What is asked for of a new limit sheet.</summary>
public sealed record SheetDemand
{
    /// <summary>Its identity.</summary>
    public required string Id { get; init; }

    /// <summary>Its title; null: from its sizes.</summary>
    public string? Title { get; init; }

    /// <summary>The sheet that it starts from.</summary>
    public required string Like { get; init; }

    /// <summary>Reel diameter; null: as there.</summary>
    public DualPrint? ReelDiameter { get; init; }

    /// <summary>Blades; null: as there.</summary>
    public int? Blades { get; init; }

    /// <summary>Width; null: as there.</summary>
    public DualPrint? Width { get; init; }

    /// <summary>What the sizes and the figures given here rest on.</summary>
    public required Basis Basis { get; init; }

    /// <summary>The figures read in the unit's own manual.</summary>
    public ImmutableArray<GivenLimit> Limits { get; init; } = [];

    /// <summary>Quantities that this kind of unit has not.</summary>
    public ImmutableArray<MeasuredQuantity> Without { get; init; } = [];

    /// <summary>Why it has not some of them.</summary>
    public ImmutableArray<LeftOutQuantity> Because { get; init; } = [];
}
