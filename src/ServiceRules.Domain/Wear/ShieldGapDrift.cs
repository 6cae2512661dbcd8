using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>The gap of a shield grows as the reel shrinks, without anyone touching it. F29: derived; growth sourced (MK11).</summary>
public static class ShieldGapDrift
{
    /// <summary>The gap to expect now: gap then + (D then - D now) / 2.</summary>
    /// <param name="gapThen">The gap when it was set or read.</param>
    /// <param name="diameterThen">Reel diameter at that time.</param>
    /// <param name="diameterNow">Reel diameter now.</param>
    public static Length Expected(Length gapThen, Length diameterThen, Length diameterNow) =>
        gapThen + ((diameterThen - diameterNow) * 0.5m);
}
