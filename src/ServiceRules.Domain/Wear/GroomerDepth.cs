using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// How far groomer blades reach below the cut. F30: sourced, three schools that do not agree: 20 % of the height (TL1), at
/// most 10 % (S29), 1 to 1.5 mm below the effective height (S10). Never into soil.
/// </summary>
public static class GroomerDepth
{
    /// <summary>Depth below the cut: height of cut - groomer height; negative where it runs above the cut.</summary>
    public static Length Of(Length heightOfCut, Length groomerHeight) => heightOfCut - groomerHeight;

    /// <summary>Depth as a share of the height of cut.</summary>
    /// <param name="depth">Depth below the cut.</param>
    /// <param name="heightOfCut">Height of cut; more than nothing.</param>
    public static decimal Share(Length depth, Length heightOfCut)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(heightOfCut.Millimetres);
        return Rounding.Factor(depth.Millimetres / heightOfCut.Millimetres);
    }

    /// <summary>The groomer height for a share: height of cut x (1 - share).</summary>
    /// <param name="heightOfCut">Height of cut.</param>
    /// <param name="share">Share of it, from 0 to 1.</param>
    public static Length HeightFor(Length heightOfCut, decimal share) => heightOfCut * (1m - share);

    /// <summary>Depth after its blades wore: depth - (d new - d now) / 2.</summary>
    /// <param name="depth">Depth with new blades.</param>
    /// <param name="diameterNew">Diameter of new groomer blades.</param>
    /// <param name="diameterNow">Their diameter now.</param>
    public static Length AfterWear(Length depth, Length diameterNew, Length diameterNow) =>
        depth - ((diameterNew - diameterNow) * 0.5m);
}
