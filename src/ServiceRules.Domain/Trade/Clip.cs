using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Trade;

/// <summary>
/// The clip: how far the machine goes forward between two blades passing one point of the bedknife. A smaller spacing
/// is a more frequent clip. Formulas F01 to F07 of the trade reference; each member says which, and its mark.
/// </summary>
public sealed record Clip
{
    private const decimal MillimetresPerMetre = 1_000m;
    private const decimal MinutesPerHour = 60m;

    // No reel comes near it; more than that is no answer.
    private const decimal MostBlades = 50m;

    /// <summary>The clip of a reel at a ground speed.</summary>
    /// <param name="groundSpeed">Ground speed.</param>
    /// <param name="reelSpeed">Turns of the reel.</param>
    /// <param name="blades">Blades of the reel, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The reel has no blade, or one of the speeds is none.</exception>
    public Clip(Speed groundSpeed, RotationRate reelSpeed, int blades)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(groundSpeed.MetresPerHour);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(reelSpeed.RevolutionsPerMinute);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(blades);
        GroundSpeed = groundSpeed;
        ReelSpeed = reelSpeed;
        Blades = blades;
    }

    /// <summary>Ground speed.</summary>
    public Speed GroundSpeed { get; }

    /// <summary>Turns of the reel.</summary>
    public RotationRate ReelSpeed { get; }

    /// <summary>Blades of the reel.</summary>
    public int Blades { get; }

    /// <summary>
    /// Clip spacing: speed / (turns x blades); 16 666.667 km/h over rev/min and blades, in mm. F01, sourced (S01, S02,
    /// S03, S23, S25).
    /// </summary>
    public Length Spacing => Rounding.ToLength(Forward / (ReelSpeed.RevolutionsPerMinute * Blades));

    /// <summary>Forward travel in one turn of the reel: speed / turns. F07, derived.</summary>
    public Length ReelPitch => Rounding.ToLength(Forward / ReelSpeed.RevolutionsPerMinute);

    /// <summary>Cuts in a metre: 1000 mm over the spacing. F02, sourced (S04, S50).</summary>
    public decimal CutsPerMetre => MillimetresPerMetre * ReelSpeed.RevolutionsPerMinute * Blades / Forward;

    private decimal Forward => MillimetresPerMinute(GroundSpeed);

    /// <summary>
    /// Clip ratio: spacing over height. Above about 1 the turf is likely to show ribs. F05; upper limit sourced (MK6,
    /// MK7, S03), no lower limit was found.
    /// </summary>
    /// <param name="height">Height of cut, the effective one where it is known; more than nothing.</param>
    public decimal RatioTo(Length height) =>
        Rounding.Factor(Forward / (ReelSpeed.RevolutionsPerMinute * Blades * Above(height)));

    /// <summary>
    /// The most that a rib can stand above the cut: sqrt(h² + s²) - h, as leaves up to one clip ahead are drawn to the
    /// shear point and stand longer. An upper bound to rank settings by, not a height that will be measured. F06,
    /// derived geometry.
    /// </summary>
    /// <param name="height">Height of cut, the effective one where it is known; more than nothing.</param>
    public Length RidgeAt(Length height)
    {
        var high = (double)Above(height);
        var spacing = (double)Spacing.Millimetres;
        // s²/(sqrt(h² + s²) + h) is the same without the difference of two near numbers.
        var ridge = spacing * spacing / (Math.Sqrt((high * high) + (spacing * spacing)) + high);
        return Length.FromMillimetres(Math.Round((decimal)ridge, 6));
    }

    /// <summary>
    /// The highest ground speed that keeps the clip: ratio x height x turns x blades. F03, derived from F01 and F05.
    /// </summary>
    /// <param name="ratio">Largest permitted clip ratio, more than 0; 1 by F05.</param>
    /// <param name="height">Height of cut; more than nothing.</param>
    /// <param name="reelSpeed">Turns of the reel.</param>
    /// <param name="blades">Blades of the reel, 1 or more.</param>
    /// <param name="unit">The unit to state it in; it is rounded down to a tenth, so that it keeps the clip.</param>
    /// <returns>None where that is below a tenth, or faster than 100 km/h.</returns>
    public static Speed? HighestSpeed(
        decimal ratio,
        Length height,
        RotationRate reelSpeed,
        int blades,
        SpeedUnit unit
    )
    {
        var forward = Asked(ratio) * Above(height) * reelSpeed.RevolutionsPerMinute * blades;
        return Speed.RoundedDown(forward * MinutesPerHour / MillimetresPerMetre, unit, 1);
    }

    /// <summary>
    /// The lowest turns of the reel that keep the clip: speed / (blades x ratio x height), rounded up to a whole turn a
    /// minute, so that they keep it. F03, derived from F01 and F05.
    /// </summary>
    /// <param name="ratio">Largest permitted clip ratio, more than 0; 1 by F05.</param>
    /// <param name="height">Height of cut; more than nothing.</param>
    /// <param name="groundSpeed">Ground speed.</param>
    /// <param name="blades">Blades of the reel, 1 or more.</param>
    /// <returns>None where that is faster than any reel turns.</returns>
    public static RotationRate? LowestReelSpeed(decimal ratio, Length height, Speed groundSpeed, int blades)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(blades);
        return RotationRate.RoundedUp(
            MillimetresPerMinute(groundSpeed) / (blades * Asked(ratio) * Above(height)),
            1m
        );
    }

    /// <summary>
    /// The fewest blades that keep the clip: speed / (turns x ratio x height), rounded up. F04, derived from F01 and F05.
    /// </summary>
    /// <param name="ratio">Largest permitted clip ratio, more than 0; 1 by F05.</param>
    /// <param name="height">Height of cut; more than nothing.</param>
    /// <param name="groundSpeed">Ground speed.</param>
    /// <param name="reelSpeed">Turns of the reel.</param>
    /// <returns>None where that is more than any reel carries.</returns>
    public static int? FewestBlades(
        decimal ratio,
        Length height,
        Speed groundSpeed,
        RotationRate reelSpeed
    ) =>
        decimal.Ceiling(
            MillimetresPerMinute(groundSpeed)
                / (reelSpeed.RevolutionsPerMinute * Asked(ratio) * Above(height))
        )
            is <= MostBlades
                and var blades
            ? (int)blades
            : null;

    private static decimal MillimetresPerMinute(Speed speed) =>
        speed.MetresPerHour * MillimetresPerMetre / MinutesPerHour;

    private static decimal Above(Length height)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(height.Millimetres);
        return height.Millimetres;
    }

    private static decimal Asked(decimal ratio)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ratio);
        return ratio;
    }
}
