using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>How far to move one unit of a machine, at each adjuster: signed, positive raises.</summary>
/// <param name="Unit">Its name.</param>
/// <param name="Left">How far on the left.</param>
/// <param name="Right">How far on the right.</param>
public sealed record UnitMove(string Unit, Length Left, Length Right)
{
    /// <summary>The same as parts of a turn on the left, where the sheet states the thread.</summary>
    public HeightTurns? LeftTurns { get; init; }

    /// <summary>The same as parts of a turn on the right, where the sheet states the thread.</summary>
    public HeightTurns? RightTurns { get; init; }

    /// <summary>
    /// What one part of a turn really obtains, where readings before and after known parts told it and the turns are
    /// counted with it; none: counted with the sheet's ratio.
    /// </summary>
    public Length? LearnedPart { get; init; }
}
