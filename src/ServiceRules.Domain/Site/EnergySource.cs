using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Site;

/// <summary>One source of hazardous energy, and how it is isolated and proven dead.</summary>
public sealed record EnergySource
{
    /// <summary>Name in events, for example <c>engine_start</c>, <c>hydraulic</c>, <c>gravity</c>.</summary>
    public required Id<EnergySource> Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Title { get; init; }

    /// <summary>Isolating device; absent: nothing to switch off, only to release or block.</summary>
    public string? Isolator { get; init; }

    /// <summary>The isolating device takes a lock.</summary>
    public bool Lockable { get; init; }

    /// <summary>Energy stays stored after isolation and must be released or restrained.</summary>
    public bool Stored { get; init; }

    /// <summary>Stored energy can build up again; it is rechecked at least this often, in minutes.</summary>
    public int? RecheckMinutes { get; init; }

    /// <summary>More than this is too much at a check; absent: nothing states how much is.</summary>
    public Pressure? RecheckLimit { get; init; }

    /// <summary>Stored energy can build up again: always so where a time or a limit for rechecks is stated.</summary>
    public bool Reaccumulates
    {
        get => field || RecheckMinutes is not null || RecheckLimit is not null;
        init;
    }

    /// <summary>How it is dissipated or restrained, in words.</summary>
    public string? Release { get; init; }

    /// <summary>How zero energy is proven, in words.</summary>
    public required string Proof { get; init; }
}
