using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>The whole steps that come nearest where none land every place inside.</summary>
/// <param name="Adjuster">What would be turned.</param>
/// <param name="LeftSteps">Net steps on the left; positive opens or raises.</param>
/// <param name="RightSteps">Net steps on the right; positive opens or raises.</param>
/// <param name="Place">The place that would still miss by most.</param>
/// <param name="Excess">By how much; zero when all would be inside and only contact stands in the way.</param>
/// <param name="IsAbove">Whether it would be too wide (or too high), and not too tight (or too low).</param>
public sealed record NearestTurn(
    AdjusterKind Adjuster,
    int LeftSteps,
    int RightSteps,
    string Place,
    Length Excess,
    bool IsAbove
)
{
    /// <summary>How far <see cref="Excess"/> may be off either way; none where nothing bounds it.</summary>
    public Length? Doubt { get; init; }

    /// <summary>The other places that would still miss, from the left; they miss by no more.</summary>
    public ImmutableArray<string> Also { get; init; } = [];

    /// <summary>
    /// Whether it misses only by the print that the readings are not held against: by their own print every place would be
    /// inside.
    /// </summary>
    public bool IsByOtherPrint { get; init; }
}
