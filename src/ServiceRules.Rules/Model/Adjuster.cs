using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Model;

/// <summary>Something that can be turned, and what turning it disturbs.</summary>
public sealed record Adjuster
{
    /// <summary>Which.</summary>
    public required AdjusterKind Kind { get; init; }

    /// <summary>Change of its own quantity at the adjuster by one step; absent: not stepped.</summary>
    public DualPrint? Step { get; init; }

    /// <summary>Its screw; absent: a distance cannot be told as turns.</summary>
    public AdjusterThread? Thread { get; init; }

    /// <summary>
    /// What one step moves at its own adjuster, exactly: the governing print, or one part of a turn of the screw; none
    /// when neither is stated.
    /// </summary>
    public Length? OneStep =>
        Step?.Governing.Value
        ?? (
            Thread is { Ratio: { } ratio } thread
                ? new HeightThread(thread.Pitch.Value, ratio).PartOf(thread.Parts)
                : null
        );

    /// <summary>Distance of the left adjuster from the left end; negative when it stands outside.</summary>
    public PrintedLength? LeftAt { get; init; }

    /// <summary>Distance of the right adjuster from the left end.</summary>
    public PrintedLength? RightAt { get; init; }

    /// <summary>In which direction an adjustment is finished.</summary>
    public FinishDirection Finish { get; init; } = FinishDirection.Either;

    /// <summary>What it disturbs, besides its own quantity.</summary>
    public ImmutableArray<Disturbance> Disturbs { get; init; } = [];
}
