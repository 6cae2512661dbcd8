using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// The heights to cut at, one after the other, when a height is lowered: each cut takes off a third at most, so that
/// h_k = start·(2/3)^k until the target is reached (derived; the same sequence is published as an example).
/// </summary>
public static class StepDown
{
    // From the highest to the lowest cut there is takes about a dozen.
    private const int Most = 50;

    /// <summary>The heights from the first cut to the target, rounded to 1e-12 mm; the target alone when one cut will do.</summary>
    /// <param name="start">The height now, above zero.</param>
    /// <param name="target">The height wanted, above zero.</param>
    /// <param name="grid">
    /// Above zero: each height between is rounded up to a whole multiple and the next is reckoned from there, so that no
    /// cut between heights as they are said takes off more than a third. None: not rounded.
    /// </param>
    public static ImmutableArray<Length> Heights(Length start, Length target, Length? grid = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(start.Millimetres, nameof(start));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(target.Millimetres, nameof(target));
        var heights = ImmutableArray.CreateBuilder<Length>();
        // Three times the target against twice the height: exact where a quotient would not be.
        for (var height = start; target * 3 < height * 2 && heights.Count < Most; )
        {
            var next = Geometry.Rounding.ToLength(height.Millimetres * 2 / 3);
            var said = grid is { } step ? step * decimal.Ceiling(next.Millimetres / step.Millimetres) : next;
            // Near the grid itself a height rounded up would be no lower.
            height = said < height ? said : next;
            heights.Add(height);
        }

        heights.Add(target);
        return heights.ToImmutable();
    }
}
