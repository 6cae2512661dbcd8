using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// How fast the clearance had to be taken up since the last grind: a unit that needs more and more of it is blunt, or
/// its bearings go. F35: trade knowledge, no source; that tightening a blunt unit harms it is sourced (MK6, S22).
/// </summary>
/// <param name="Now">The rate since the last grind.</param>
/// <param name="Usual">The median of the unit's own earlier rates.</param>
/// <param name="Times">Now over usual.</param>
public sealed record TakeUp(WearRate Now, WearRate Usual, decimal Times)
{
    private const int FewestRates = 3;

    /// <summary>The usual alarm: twice the unit's own median (illustrative, for a site to settle).</summary>
    public const decimal UsualMultiple = 2m;

    /// <summary>Holds a rate against the unit's own earlier ones.</summary>
    /// <param name="now">The rate since the last grind.</param>
    /// <param name="own">The unit's own rates between earlier grinds.</param>
    /// <returns>Null with fewer than three of its own, or when it usually needs none.</returns>
    public static TakeUp? Against(WearRate now, IEnumerable<WearRate> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        ImmutableArray<WearRate> rates = [.. own];
        return
            rates.Length < FewestRates
            || Median.Of(rates) is not { MillimetresPerHour: > 0m and var each } usual
            ? null
            : new(now, usual, Rounding.Factor(now.MillimetresPerHour / each));
    }

    /// <summary>Whether the rate is more than so many times the unit's own median.</summary>
    public bool IsHigh(decimal multiple) => Times > multiple;
}
