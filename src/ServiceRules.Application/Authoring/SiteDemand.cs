using System.Collections.Immutable;

namespace ServiceRules.Application.Authoring;

/// <summary>What is asked for of the folder of a new site.</summary>
public sealed record SiteDemand
{
    /// <summary>Its name, as people and reports say it.</summary>
    public required string Name { get; init; }

    /// <summary>The name of its zone in the zone data; null: not said.</summary>
    public required string? TimeZone { get; init; }

    /// <summary>The version of the zone data; null: as this machine says.</summary>
    public string? ZoneData { get; init; }

    /// <summary>Where it is to stand.</summary>
    public required string Folder { get; init; }

    /// <summary>Its people, with what each does.</summary>
    public ImmutableArray<(string Id, ShopRole Role)> People { get; init; } = [];

    /// <summary>Packs of jurisdictions that are in force there.</summary>
    public ImmutableArray<string> Jurisdictions { get; init; } = [];

    /// <summary>How its locks and tags look.</summary>
    public string? LockStyle { get; init; }

    /// <summary>The day on which it is made.</summary>
    public required DateOnly Today { get; init; }
}
