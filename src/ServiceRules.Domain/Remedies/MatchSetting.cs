using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>Where one unit is set.</summary>
/// <param name="IsMoved">Whether it is moved at all.</param>
/// <param name="Left">How far at the left adjuster; positive raises.</param>
/// <param name="Right">How far at the right adjuster; positive raises.</param>
/// <param name="LeftEnd">The height of the left end afterwards.</param>
/// <param name="Middle">The height at mid-width afterwards.</param>
/// <param name="RightEnd">The height of the right end afterwards.</param>
/// <param name="Steps">Steps turned on both sides, of an adjuster that turns in steps; else zero.</param>
public sealed record MatchSetting(
    bool IsMoved,
    Length Left,
    Length Right,
    Length LeftEnd,
    Length Middle,
    Length RightEnd,
    int Steps
)
{
    /// <summary>Differences below this are no reason to choose: nobody sets a height to better than 0.0001 mm.</summary>
    internal static Length Settable { get; } = Length.FromMillimetres(0.0001m);

    /// <summary>How far both ends stand from a target, in whole <see cref="Settable"/>.</summary>
    internal long OffTarget(Length target) =>
        (long)
            Math.Round(((LeftEnd - target).Abs + (RightEnd - target).Abs).Millimetres / Settable.Millimetres);
}
