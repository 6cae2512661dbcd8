using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// A spin grind makes every land wider, since the relief behind it slopes away from the tangent. F26: derived geometry;
/// land and angle values sourced (MK4, MK13).
/// </summary>
public static class LandGrowth
{
    private const decimal RightAngle = 90m;
    private const int Decimals = 6;

    /// <summary>How much wider a land gets: (loss / 2) / tan(relief).</summary>
    /// <param name="diameterLoss">Diameter lost, zero or more.</param>
    /// <param name="relief">Relief angle from the tangent, between 0 and 90 degrees.</param>
    public static Length Of(Length diameterLoss, Angle relief) =>
        Length.FromMillimetres(Math.Round(diameterLoss.Millimetres / 2m / Tangent(relief), Decimals));

    /// <summary>The diameter that can still be lost before a land is too wide: 2 x (limit - land) x tan(relief).</summary>
    /// <param name="land">Land width now.</param>
    /// <param name="limit">Greatest land width.</param>
    /// <param name="relief">Relief angle from the tangent, between 0 and 90 degrees.</param>
    /// <returns>Negative when it is too wide already.</returns>
    public static Length DiameterToLimit(Length land, Length limit, Angle relief) =>
        Length.FromMillimetres(Math.Round(2m * (limit - land).Millimetres * Tangent(relief), Decimals));

    private static decimal Tangent(Angle relief)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(relief.Degrees);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(relief.Degrees, RightAngle);
        return (decimal)Math.Tan((double)relief.Degrees * Math.PI / 180);
    }
}
