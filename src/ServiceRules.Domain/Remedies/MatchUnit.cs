using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>One unit of a machine that may be moved to match the others: its height is a line over its width.</summary>
public sealed record MatchUnit
{
    /// <summary>Height at the left adjuster now.</summary>
    public required Length Left { get; init; }

    /// <summary>Height at the right adjuster now.</summary>
    public required Length Right { get; init; }

    /// <summary>Distance of the left adjuster from the left end.</summary>
    public Length LeftAt { get; init; }

    /// <summary>Distance of the right adjuster from the left end; right of the left one.</summary>
    public required Length RightAt { get; init; }

    /// <summary>Width, from the left end at 0.</summary>
    public required Length Width { get; init; }

    /// <summary>Where both ends must stand after a move; none: anywhere.</summary>
    public ToleranceZone? Zone { get; init; }

    /// <summary>How far the ends may differ after a move; none: as far as one part of the grid lets them.</summary>
    public Length? MostTilt { get; init; }

    /// <summary>The height aimed at.</summary>
    public required Length Target { get; init; }

    /// <summary>Whether it cannot stay as it is, because it breaks a limit of its own.</summary>
    public bool MustMove { get; init; }

    /// <summary>Whether its middle has to lie with the middles of the others.</summary>
    public bool IsInSet { get; init; } = true;

    /// <summary>How it is moved.</summary>
    public MoveKind Moves { get; init; }

    /// <summary>
    /// The part of a turn or the step, at its own adjuster; for <see cref="MoveKind.Freely"/> the finest that is set. Above
    /// zero.
    /// </summary>
    public required Length Part { get; init; }

    /// <summary>The height at a distance from the left end, for heights at the adjusters, rounded to 1e-12 mm.</summary>
    internal Length At(Length place, Length left, Length right) =>
        left
        + Geometry.Rounding.ToLength(
            (right - left).Millimetres * (place - LeftAt).Millimetres / (RightAt - LeftAt).Millimetres
        );
}
